import type { Random } from '../seeded.ts';

/** The instants at which a gauge reads: evenly, `rate_Hz` times a second, from a moment of its own on. */
export function evenMoments(rate_Hz: number, until_s: number, random: Random): readonly number[] {
  const first_s = random.uniform(0, 1 / rate_Hz);
  return Array.from(
    { length: Math.max(0, Math.floor((until_s - first_s) * rate_Hz)) },
    (_, n) => first_s + n / rate_Hz,
  );
}

/** When the bytes arrive if the machine is busy: now and then nothing for a while, then all that waited at once. */
export function arrivals(
  moments: readonly number[],
  stalls: { readonly every_s: number; readonly from_s: number; readonly to_s: number },
  random: Random,
): readonly number[] {
  let stall_s = random.uniform(0, 2 * stalls.every_s);
  let over_s = stall_s + random.uniform(stalls.from_s, stalls.to_s);
  return moments.map((t_s) => {
    while (t_s > over_s) {
      stall_s = over_s + random.uniform(0, 2 * stalls.every_s);
      over_s = stall_s + random.uniform(stalls.from_s, stalls.to_s);
    }
    return t_s < stall_s ? t_s : over_s;
  });
}
