/**
 * Notices that the stem was put down on a gear or lifted off it: its reading goes through a millimetre within half a second.
 * No gear turned by hand does that; wobble of a whole millimetre takes a hand longer, and a burr is not as high.
 * It keeps two readings.
 */
export interface LeapWatch {
  /** Readings from about a quarter and half a second ago. */
  olderT: number;
  older: number;
  youngerT: number;
  younger: number;
}

export const newLeapWatch = (): LeapWatch => ({
  olderT: Number.NaN,
  older: Number.NaN,
  youngerT: Number.NaN,
  younger: Number.NaN,
});

const tooFar_mm = 1;
const apart_s = 0.25;
/** A reading from before a longer silence says nothing about how fast the stem went. */
const forgotten_s = 0.8;

/** Whether the stem is leaping at this reading, or was within the last moments. */
export function leaps(watch: LeapWatch, t: number, value: number): boolean {
  const leapt = isFar(watch.olderT, watch.older, t, value) || isFar(watch.youngerT, watch.younger, t, value);
  if (!(t - watch.youngerT < apart_s)) {
    watch.olderT = watch.youngerT;
    watch.older = watch.younger;
    watch.youngerT = t;
    watch.younger = value;
  }
  return leapt;
}

/** So far no gear brings a stem, however long nothing was heard: a machine at its limit brings readings late (own choice). */
const tooFarForAnyGear_mm = 2;

const isFar = (fromT: number, from: number, t: number, value: number): boolean =>
  Math.abs(value - from) > (t - fromT < forgotten_s ? tooFar_mm : tooFarForAnyGear_mm);
