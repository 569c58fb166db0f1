import { shownBy, type WorldAxle } from './axle.ts';
import { edgeLimits, type EdgeSeen, edgeSpread, type MarkRead, type TrialRead } from './hands.ts';
import type { Painted } from './paint.ts';
import type { Population } from './population.ts';

/** Logarithm of how probable a trial's readings are on an axle, but for a constant: exactly as hands read (hands.ts). */
export function likelihood(
  population: Population,
  axle: WorldAxle,
  read: TrialRead | undefined,
  trial: number,
): number {
  if (read === undefined) return 0;
  const shown = shownBy(axle, read.pinionOut, read.ringAway, trial);
  return (
    ofBacklash(read.backlash, shown.backlash, population.backlashReading) +
    ofMark(read.drive, shown.drive, population.reading) +
    ofMark(read.coast, shown.coast, population.reading)
  );
}

/** Gears that bind read 0 however hard they are pressed together. */
function ofBacklash(read: number, shown: number, doubt: number): number {
  if (read > 0) return -0.5 * ((read - shown) / doubt) ** 2;
  return Math.log(Math.max(1e-12, below(-shown / doubt)) * doubt * Math.sqrt(2 * Math.PI));
}

function ofMark(read: MarkRead, shown: Painted, doubt: number): number {
  const miss = (at: 'heel' | 'crown' | 'length' | 'height'): number => ((read[at] - shown[at]) / doubt) ** 2;
  let log = -0.5 * (miss('heel') + miss('crown') + miss('length') + miss('height'));
  read.edges.forEach((seen, edge) => {
    log += Math.log(Math.max(1e-9, edgeChance(seen, shown.edges[edge] ?? 0)));
  });
  return log;
}

function edgeChance(seen: EdgeSeen, left: number): number {
  const [hard, reached] = [below((edgeLimits.hard - left) / edgeSpread), below((edgeLimits.clear - left) / edgeSpread)];
  if (seen === 'hard') return hard;
  return seen === 'clear' ? 1 - reached : reached - hard;
}

/** Normal integral, to 1e-4 (logistic form). */
const below = (x: number): number => 1 / (1 + Math.exp(-x * (1.5957691 + 0.0713548 * x * x)));
