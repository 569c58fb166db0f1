import type { Field } from '../../basics/field.ts';
import { fail, ok, type Result } from '../../basics/result.ts';
import { centreUncertainty } from './centreUncertainty.ts';
import { describeMask, type MarkWithArea, momentsOf } from './describeMask.ts';
import type { FlankMap } from './flankMap.ts';
import { layFlank, proportionsOf, type ReadOptions, warningsOf } from './layFlank.ts';
import type { FlankCorners, Photo } from './photo.ts';
import { cleaned, type Mask, regions } from './regions.ts';
import { separate, type Separation } from './separate.ts';
import { smoothed } from './smoothing.ts';
import { solidity } from './solidity.ts';
import type { FlankRaster } from './straighten.ts';
import { unreadable, type Unreadable } from './unreadable.ts';

/** What was read off one flank in a photo. */
export interface PatternReading {
  readonly mark: MarkWithArea;
  /** What the reader should know, in plain sentences. */
  readonly warnings: readonly string[];
  readonly map: FlankMap;
  readonly raster: FlankRaster;
  readonly separation: Separation;
  readonly mask: Mask;
}

/**
 * Reads the mark on one flank of a photo.
 * @param corners toe-root, toe-crown, heel-crown, heel-root in pixels of the upright photo; either turn.
 * @returns the mark with its uncertainty, or why there is none: an unreadable photo gives no answer, not a wrong one.
 */
export function readPattern(
  photo: Photo,
  corners: FlankCorners,
  options: ReadOptions = {},
): Result<PatternReading, Unreadable> {
  const laid = layFlank(photo, corners, options);
  if (!laid.ok) return laid;
  const { edges, map, raster } = laid.value;
  if ((edges.softness ?? 0) > softest) return fail(unreadable('out-of-focus'));
  const separation = separate(raster);
  if (separation === undefined) return fail(unreadable(isDark(raster) ? 'too-dark' : 'no-mark'));
  const mask = cutOut(raster, separation, 0.5);
  const why = whyNot(raster, separation, mask);
  if (why !== undefined) return fail(unreadable(isDark(raster) ? 'too-dark' : why));
  const reading = { map, raster, separation, mask };
  const mark = markOf(reading, laid.value.faintness, options.faceOverHeight);
  // Cut off all round it has no place: rust and light that shine through a thin film look so, and no mark does.
  if (Object.values(mark.edges).every((edge) => edge !== 'clear')) return fail(unreadable('no-compound'));
  return ok({
    ...reading,
    mark,
    warnings: [...warningsOf(laid.value, options)],
  });
}

/**
 * Where nothing was told apart in less light than this (linear, of 1, the brightest channel, mean over the flank), light is what is
 * missing: own choice, bytes of 26 in 255. Flanks of rendered photographs lie between 0.2 and 0.7.
 */
const darkest = 0.01;

function isDark({ red, green, blue }: FlankRaster): boolean {
  const sum = red.reduce((all, value, k) => all + Math.max(value, green[k] ?? 0, blue[k] ?? 0), 0);
  return sum / red.length < darkest;
}

/** Width of an edge, as a fraction of the flank's height, beyond which a photo is out of focus. */
const softest = 0.13;

/** The mark at a bareness, without spots and holes. */
function cutOut(raster: FlankRaster, { bareness }: Pick<Separation, 'bareness'>, threshold: number): Mask {
  return cleaned(
    bareness.where((value) => value > threshold),
    raster,
  );
}

/** Difference ΔE*ab below which no eye sees a mark either. */
const faintest = 5;
/**
 * Share of the bareness that two heaps explain, below which nothing but unevenness was told apart: rendered marks of all
 * colours, also of a world that was built by other beliefs, leave 0.84 and more, films without a mark 0.79 and less.
 */
const leastTwo = 0.81;
/**
 * A streaky film is no heap of one bareness, and yet the mark in it is plain: it lies this many standard deviations of what
 * each varies by itself from the compound, and looks this different (ΔE*ab). Films without a mark: 3.8 and 16.5 at most,
 * with an explained share that may be anything.
 */
const plainly = { apart: 4.1, contrast: 20 } as const;

/** Own choice: a mark is a place on the flank; where more than this is bare, it was never painted and glare passes for compound. */
const largest = 0.75;

function whyNot(raster: FlankRaster, separation: Separation, mask: Mask): Unreadable | undefined {
  const cells = mask.length;
  const share = (of: Uint8Array) => of.reduce((sum, one) => sum + one, 0) / cells;
  if (share(raster.blind) > 0.3) return 'glare';
  const area = share(mask);
  if (separation.contrast < faintest || !isTwo(separation) || area < 0.01) return 'no-mark';
  if (area > largest) return 'no-compound';
  if (separation.darkEnd > 0.06) return 'shadow';
  return hasNoShape(raster, separation) ? 'smeared' : undefined;
}

const isTwo = ({ explained, apart, contrast }: Separation): boolean =>
  explained >= leastTwo || (apart >= plainly.apart && contrast >= plainly.contrast);

/**
 * A mark is one place: most of what is bare belongs to it, and it has no bays. Looked at with half-closed eyes, for the
 * streaks of a brush eat bays into the plainest mark; smears keep theirs.
 */
function hasNoShape(raster: FlankRaster, { bareness }: Separation): boolean {
  const bareCells = squinted(bareness).where((value) => value > 0.5);
  const [main] = regions(cleaned(bareCells, raster), raster, 1);
  if (main === undefined) return true;
  const bare = bareCells.reduce((sum, one) => sum + one, 0);
  return main.cells.length < leastWhole * bare || solidity(main, raster) < leastSolid;
}

function squinted(bareness: Field): Field {
  let seen = bareness;
  for (let round = 0; round < squints; round += 1) seen = smoothed(seen);
  return seen;
}

/** Means over three cells either way, one after the other: a blur of about a fiftieth of the face. */
const squints = 12;
/** Own choices: rendered marks fill 0.79 and more of their hull and are one place, smears fail by one or the other. */
const [leastSolid, leastWhole] = [0.75, 0.75];

type Read = Pick<PatternReading, 'map' | 'raster' | 'separation' | 'mask'>;

function markOf(read: Read, faint: number, faceOverHeight?: number): MarkWithArea {
  const { map, raster, separation, mask } = read;
  const proportions = proportionsOf(map, faceOverHeight);
  const mark = describeMask({ grid: raster, mask, bareness: separation.bareness }, proportions);
  const centreAt = (threshold: number) => {
    const other = cutOut(raster, separation, threshold);
    return other.includes(1) ? momentsOf(other, raster, map.narrowing) : mark;
  };
  const u = centreUncertainty(map, mark, centreAt, faint);
  // Compound left in a mark breaks it up: by as much as its middle lies elsewhere with half-closed eyes nobody knows it.
  const whole = cutOut(raster, { bareness: squinted(separation.bareness) }, 0.5);
  const other = whole.includes(1) ? momentsOf(whole, raster, map.narrowing) : mark;
  const doubt = (along: 'heel' | 'crown') => 2 * Math.hypot(u[along], other[along] - mark[along]);
  return { ...mark, U95: { heel: doubt('heel'), crown: doubt('crown') } };
}
