/**
 * The most values (fields, members, texts) one message may hold. The largest that a screen sends are a drawer of 600 sizes
 * and a mark with 2,000 touches of the brush: some 12,000.
 */
export const mostValues = 50_000;

/**
 * Whether a value read from JSON holds more than so many values. Looked at before its schema is: a schema names every fault
 * it finds, and three hundred thousand unknown keys kept the bench from its gauges for seconds. Gives up as soon as the
 * number is passed.
 */
export function holdsTooMuch(value: unknown, most = mostValues): boolean {
  const waiting: unknown[] = [value];
  let seen = 1;
  while (waiting.length > 0) {
    const one = waiting.pop();
    if (typeof one !== 'object' || one === null) continue;
    for (const member of Array.isArray(one) ? one : Object.values(one)) {
      seen += 1;
      if (seen > most) return true;
      if (typeof member === 'object') waiting.push(member);
    }
  }
  return false;
}
