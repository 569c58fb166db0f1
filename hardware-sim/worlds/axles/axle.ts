import { gapOver, type Gap, type Painted, paintedBy, type Relieved } from './paint.ts';
import type { Kind, Population } from './population.ts';
import type { Flank } from './slopes.ts';

/** Everything that chance decides of one axle, as standard normal numbers: what the ideal has to find out. */
export type Chances = Float64Array;

export const names = [
  'film',
  'long',
  'tall',
  'pinion',
  'cut',
  'start',
  'ringShare',
  'pinionShare',
  'spread',
  'relief',
] as const;
export const ofFlank = ['a', 'c', 'bias', 'heel', 'crown'] as const;
const flanks: readonly Flank[] = ['convex', 'concave'];
const firstFilm = names.length + flanks.length * ofFlank.length;
/** Trials that may each have a film of their own. */
const mostTrials = 8;
export const chancesIn = firstFilm + mostTrials;

/** An axle of this world: straight lines, and relief that lets a displaced mark meet sooner. */
export interface WorldAxle {
  readonly kind: Kind;
  readonly relief: Readonly<Record<Flank, Relieved>>;
  readonly film: (trial: number) => number;
  readonly cutOffMarks: Population['cutOffMarks'];
  /** Where the first trial stands from where the gears were cut to stand. */
  readonly start: { readonly out: number; readonly away: number };
  readonly backlashWhereCut: number;
  /** Backlash along the rotation at the heel for each mm, before relief has its say. */
  readonly perOut: number;
  readonly perAway: number;
}

/** Normal number to an even one in 0…1 (logistic form of the normal integral, good to 1e-4: any fixed map would do). */
const even = (normal: number): number => 1 / (1 + Math.exp(-normal * (1.5957691 + 0.0713548 * normal * normal)));
const between = (normal: number, [low, high]: readonly [number, number]): number => low + (high - low) * even(normal);

export function axleBy(population: Population, kind: Kind, chances: Chances): WorldAxle {
  const at = (name: (typeof names)[number]): number => chances[names.indexOf(name)] ?? 0;
  const film = Math.exp(between(at('film'), [Math.log(population.film[0]), Math.log(population.film[1])]));
  const change = Math.log(population.filmChange);
  const formula = shares(kind);
  const half = {
    kind,
    cutOffMarks: population.cutOffMarks,
    film: (trial: number) =>
      change === 0 || trial < 0 ? film : film * Math.exp(between(chances[firstFilm + trial] ?? 0, [-change, change])),
    relief: { convex: reliefBy(population, kind, chances, 0), concave: reliefBy(population, kind, chances, 1) },
    backlashWhereCut: middle(kind) + 0.2 * population.windowWidth * at('cut'),
    perOut: formula.out * (1 + population.pinionShare * at('pinionShare')),
    perAway: formula.away * between(at('ringShare'), population.ringShare),
  };
  const out = population.position * at('pinion');
  const wanted =
    population.start === 'binds'
      ? between(at('start'), [-0.25, -0.02])
      : Math.max(0.03, middle(kind) + between(at('start'), [-0.7, 0.7]) * population.windowWidth);
  return { ...half, start: { out, away: awayFor(half, out, wanted) } };
}

const middle = ({ window: [low, high] }: Kind): number => (low + high) / 2;

/** What the formula gives at the heel, both flanks together (mm per mm). */
function shares({ slopes: { convex, concave }, heelRadius }: Kind): { readonly out: number; readonly away: number } {
  const both = (move: 'pinionOut' | 'ringAway'): number =>
    heelRadius * (convex[move].gap / convex.arm + concave[move].gap / concave.arm);
  return { out: both('pinionOut'), away: both('ringAway') };
}

function reliefBy(population: Population, { size }: Kind, chances: Chances, flank: 0 | 1): Relieved {
  const at = (name: (typeof ofFlank)[number]): number =>
    chances[names.length + flank * ofFlank.length + ofFlank.indexOf(name)] ?? 0;
  const shared = (name: (typeof names)[number]): number => chances[names.indexOf(name)] ?? 0;
  const film = Math.exp(between(shared('film'), [Math.log(population.film[0]), Math.log(population.film[1])]));
  const { film: usual, follows, spread } = population.relief;
  const shownIn = usual * (film / usual) ** follows * Math.exp(spread * shared('relief'));
  const cutting = between(shared('spread'), population.cutting);
  const long = between(shared('long'), [0.4, 0.68]) * (1 + 0.09 * clip(at('a'))) * size.face;
  const tall = between(shared('tall'), [0.5, 0.8]) * (1 + 0.09 * clip(at('c'))) * size.height;
  const [a, c] = [(2 * shownIn) / (long / 2) ** 2, (2 * shownIn) / (tall / 2) ** 2];
  const bias = Math.max(-0.8, Math.min(0.8, 0.12 * at('bias')));
  return { a, c, b: bias * Math.sqrt(a * c), heel: cutting * at('heel'), crown: cutting * at('crown') };
}

const clip = (normal: number): number => Math.max(-3, Math.min(3, normal));

type Half = Omit<WorldAxle, 'start'>;

function awayFor(axle: Half, out: number, wanted: number): number {
  let away = (wanted - axle.backlashWhereCut - axle.perOut * out) / axle.perAway;
  for (let round = 0; round < 3; round += 1) away += (wanted - backlashOf(axle, out, away)) / axle.perAway;
  return away;
}

const gapsOf = ({ kind, relief }: Half, out: number, away: number): Readonly<Record<Flank, Gap>> => ({
  convex: gapOver(kind.slopes.convex, relief.convex, kind.size, out, away),
  concave: gapOver(kind.slopes.concave, relief.concave, kind.size, out, away),
});

function backlashFrom(axle: Half, out: number, away: number, gaps: Readonly<Record<Flank, Gap>>): number {
  const { slopes, heelRadius } = axle.kind;
  const sooner = gaps.convex.least / slopes.convex.arm + gaps.concave.least / slopes.concave.arm;
  return axle.backlashWhereCut + axle.perOut * out + axle.perAway * away + heelRadius * sooner;
}

const backlashOf = (axle: Half, out: number, away: number): number =>
  backlashFrom(axle, out, away, gapsOf(axle, out, away));

/** What there is at a place, counted from the first trial. Backlash below 0 is gears pressed together. */
export interface Shown {
  readonly backlash: number;
  readonly drive: Painted;
  readonly coast: Painted;
}

export function shownBy(axle: WorldAxle, pinionOut: number, ringAway: number, trial: number): Shown {
  const [out, away] = [axle.start.out + pinionOut, axle.start.away + ringAway];
  const gaps = gapsOf(axle, out, away);
  const { drive } = axle.kind;
  const film = axle.film(trial);
  return {
    backlash: backlashFrom(axle, out, away, gaps),
    drive: markOf(axle, gaps[drive], film),
    coast: markOf(axle, gaps[drive === 'convex' ? 'concave' : 'convex'], film),
  };
}

function markOf({ kind, cutOffMarks }: WorldAxle, gap: Gap, film: number): Painted {
  const painted = paintedBy(gap, kind.size, film);
  if (cutOffMarks === 'rest') return painted;
  const middle = (value: number): number => Math.max(-0.5, Math.min(0.5, value));
  return { ...painted, heel: middle(gap.u / kind.size.face), crown: middle(gap.v / kind.size.height) };
}

export const backlashAt = (axle: WorldAxle, pinionOut: number, ringAway: number): number =>
  backlashOf(axle, axle.start.out + pinionOut, axle.start.away + ringAway);
