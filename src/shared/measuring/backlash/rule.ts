/**
 * When a station has enough rocks.
 *
 * A rule that looks after every rock and stops as soon as a few agree picks those that happen to agree: its spread is
 * too small, its value is that of the luckier rocks, and its uncertainty covers less than it says. So the number is fixed
 * beforehand: four rocks, eight rests, and what they came to is said with the scatter they had. Only where that would be a
 * refusal, or a number with a flag, four more are asked for, once; then all eight count and the answer stands.
 */
export const LOOKS = [4, 8] as const;
/** A technician who leaves after three rocks has said that it is enough; two have no spread worth the name. */
export const LEAST_ROCKS = 3;
