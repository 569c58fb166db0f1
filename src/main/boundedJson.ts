/** A certificate or a bundle of a long build holds some 20,000 values, ten deep; its readings are one text. */
const mostValues = 1_000_000;
const mostDeep = 200;

const [quote, backslash, comma, colon, open, close, openList, closeList] = Buffer.from('"\\,:{}[]');

/**
 * JSON out of bytes that may come from anybody; undefined where they are none. A few kilobytes of packed brackets become
 * gigabytes of objects, and brackets deep enough end whoever walks through them, so that values and depth are counted before
 * anything is made of them. Nor is it JSON of ours where a name stands twice in one object: whoever reads the text sees
 * another value than the program, which takes the last (RFC 8259, 4: names should be unique).
 */
export function boundedJson(bytes: Uint8Array): unknown {
  const named = namesIn(bytes);
  if (named === undefined) return undefined;
  try {
    const value: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return membersOf(value) === named ? value : undefined;
  } catch {
    return undefined;
  }
}

/** Members of all objects in a value. One named __proto__ is none: copied on, it would vanish. */
function membersOf(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const members = Array.isArray(value) ? 0 : Object.keys(value).length - (Object.hasOwn(value, '__proto__') ? 1 : 0);
  return Object.values(value).reduce<number>((sum, one) => sum + membersOf(one), members);
}

/** How many names the text gives to values; undefined where it holds too much. */
function namesIn(bytes: Uint8Array): number | undefined {
  let [values, names, deep, inText] = [1, 0, 0, false];
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (inText) {
      if (byte === backslash) at += 1;
      else if (byte === quote) inText = false;
    } else if (byte === quote) inText = true;
    else if (byte === open || byte === openList) {
      deep += 1;
      values += 1;
    } else if (byte === close || byte === closeList) deep -= 1;
    else if (byte === comma) values += 1;
    else if (byte === colon) names += 1;
    if (values > mostValues || deep > mostDeep) return undefined;
  }
  return names;
}
