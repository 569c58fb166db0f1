import { type Angle, type Length, mm } from '../../basics/quantity.ts';
import { none, type OrNone } from '../../basics/result.ts';
import { type HarmonicFit, leastSeen } from '../../basics/harmonics.ts';
import type { RunoutCapture } from './runoutState.ts';
import type { RunoutShape, ShapeFound } from './runoutShape.ts';
import { combine, differenceParts, rectangular, type UncertaintyPart } from '../uncertainty/uncertainty.ts';

export type RunoutFlag =
  | 'drift'
  | 'unit-jump'
  | 'gap'
  /** Single wild readings were left out. */
  | 'spike'
  /** No angle, no marks: everything read is taken as one turn. */
  | 'turn-assumed'
  /** Another number of pauses was found than there are stations. */
  | 'stations-unclear'
  /** Stations are taken as equally spaced, in the order of their numbers. */
  | 'equal-spacing-assumed'
  /** The stem rode higher or lower between the stations than at any of them. */
  | 'more-between'
  /** At these stations two lobes can vanish. */
  | 'two-lobes-can-vanish'
  /** So few readings over the turn that its highest and lowest places may lie between them: turn more slowly. */
  | 'few-readings'
  /** The stem left the gear before the last station. */
  | 'stem-lifted'
  /** No place was read twice, so that nothing would show a base that creeps. */
  | 'not-compared'
  /** It may not have been a whole turn. */
  | 'part-turn'
  /** Most of what noise leaves open comes from noise that wanders, not from each reading's own. */
  | 'correlated-noise'
  /** One end of the readings looks cut off: the stem may have hung free there, or stood at the end of its travel. */
  | 'end-of-travel'
  /** The readings moved by a step or two one way and never back: the gauge may hold its highest or lowest value. */
  | 'held';

export type NoRunout =
  /** The stem was still coming down when the turn began. */
  | 'stem-landing'
  | 'stem-lifted'
  | 'nothing-measured'
  /** Nothing in the readings shows that the gear moved. */
  | 'not-turned'
  /** So few readings that they are no turn. */
  | 'too-few'
  | 'part-turn'
  | 'unit-jump'
  | 'drift'
  /** The readings went one way only, over a whole turn: the gauge holds its highest or lowest value. */
  | 'held'
  | 'too-few-stations';

export interface HarmonicMeasured {
  readonly order: number;
  readonly amplitude: Length;
  readonly highSpot: Angle;
  readonly u: Length;
}

export interface StationMeasured {
  readonly number: number;
  readonly value: Length;
  readonly angle?: Angle;
}

export interface RunoutMeasured {
  readonly tir: OrNone<Length, NoRunout>;
  /** First and, where the places can tell it, second harmonic; none where the angle of the readings is not known. */
  readonly harmonics: OrNone<readonly HarmonicMeasured[], 'no-angle' | 'too-few-places'>;
  /** Largest minus smallest of what the harmonics leave over. */
  readonly residual: OrNone<Length>;
  /** Readings where the hand paused; absent for a continuous turn. */
  readonly stations?: readonly StationMeasured[];
  /** By how much the true TIR of a surface with one lobe may exceed this one, at these places. */
  readonly missAtWorst: OrNone<Length>;
  readonly u: Length;
  readonly U95: Length;
  readonly parts: readonly UncertaintyPart[];
  readonly flags: readonly RunoutFlag[];
  readonly shape: RunoutShape;
  readonly burr?: ShapeFound['burr'];
}

/** What a turn or a ride by stations has come to, before gauge and refusals are added. */
interface Found {
  readonly tir: number;
  /** What these readings leave open, whatever the gauge. */
  readonly doubt: readonly UncertaintyPart[];
  /** How far the same place reads apart a turn later, mm. */
  readonly closing: number;
  /** The same as it counts in the doubt, where that differs. */
  readonly closingWeighed?: number;
  /** Standard deviation of one reading's own noise, mm. */
  readonly noise: number;
  /** Equally spaced places that see at least as much as these. */
  readonly places: number;
  readonly fit: HarmonicFit | undefined;
  readonly withheld: 'no-angle' | 'too-few-places';
  readonly shape: ShapeFound;
  readonly flags: readonly RunoutFlag[];
  readonly stations?: readonly StationMeasured[];
}

/** Adds the gauge's own doubt and refuses what measured the stand instead of the gear. */
export function assembled(capture: RunoutCapture, found: Found): RunoutMeasured {
  const { tir, fit, withheld, shape, stations } = found;
  const flags = [...flagsOf(capture, found.closing, found.noise), ...found.flags];
  const parts = partsOf(capture, found);
  const { u, U95 } = combine(parts);
  const refused = refusalOf(capture, found);
  const share = leastSeen(found.places);
  return {
    tir: refused === undefined ? mm(tir) : none(refused),
    harmonics: fit === undefined ? none(withheld) : fit.harmonics.map(measured),
    residual: fit === undefined ? none(withheld) : mm(fit.residualSpan),
    ...(stations === undefined ? {} : { stations }),
    missAtWorst: share > 0 ? mm(tir / share - tir) : none('too-few-places'),
    u: mm(u),
    U95: mm(U95),
    parts,
    flags,
    ...shape,
  };
}

const measured = ({ order, amplitude, highSpot, u }: HarmonicFit['harmonics'][number]): HarmonicMeasured => ({
  order,
  amplitude: mm(amplitude),
  highSpot,
  u: mm(u),
});

function partsOf({ settings }: RunoutCapture, found: Found): readonly UncertaintyPart[] {
  const { doubt, closing, closingWeighed = closing } = found;
  return [
    ...differenceParts(settings),
    ...doubt,
    ...(closingWeighed === 0 ? [] : [{ name: 'not coming back', u: rectangular(Math.abs(closingWeighed)) }]),
  ];
}

/**
 * No gear that turns in its bearings runs out so far (own choice, from no table): the stem was put down or lifted in it,
 * and the readings came so late or so few that it was not seen leaping.
 */
const mostOfAnyGear_mm = 2;

/** A turn that ends more than half its own runout from where it began measured the stand, not the gear. */
function refusalOf({ sieve, settings }: RunoutCapture, { tir, closing }: Found): NoRunout | undefined {
  if (sieve.unitJump) return 'unit-jump';
  if (tir > mostOfAnyGear_mm) return 'stem-lifted';
  return Math.abs(closing) > Math.max(5 * settings.resolution, tir / 2) ? 'drift' : undefined;
}

export function flagsOf({ sieve, settings }: RunoutCapture, closing: number, noise: number): readonly RunoutFlag[] {
  const drifts = Math.abs(closing) > 2 * settings.resolution + 3 * noise;
  return [
    ...(drifts ? (['drift'] as const) : []),
    ...(sieve.unitJump ? (['unit-jump'] as const) : []),
    ...(sieve.spikes > 0 ? (['spike'] as const) : []),
  ];
}

export const nothing = (reason: NoRunout, flags: readonly RunoutFlag[]): RunoutMeasured => ({
  tir: none(reason),
  harmonics: none('too-few-places'),
  residual: none(reason),
  missAtWorst: none(reason),
  u: mm(0),
  U95: mm(0),
  parts: [],
  flags,
  shape: 'unknown',
});
