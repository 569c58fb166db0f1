/**
 * Touches: the movement went out and came back to a place without having stood still on the other side. Kept as how far it
 * went each time, so that what is small beside the backlash can be told once that is known.
 */

/** A way out and back that is this share of a stroke went to the other stop and did not stay; a rebound is a third. */
export const TOUCH = 0.45;
/** This many touches without a rest on the other side are rocks that were meant and not held. */
const MEANT = 3;
const MOST_KEPT = 8;

/**
 * Was the other side touched, again and again, and not held?
 * @param width of the corridor, mm, where one is known: what is small beside it touched nothing; else 0.
 */
export const touchedOnly = (touches: readonly number[], width: number): boolean =>
  touches.filter((size) => size >= TOUCH * width).length >= MEANT;

export function addTouch(touches: number[], size: number): void {
  if (touches.length < MOST_KEPT) touches.push(size);
}
