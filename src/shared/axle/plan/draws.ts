import { type Axle, axleFrom } from './guess.ts';
import type { Belief } from './learn.ts';
import { drawnAlongRidge } from './proposals.ts';
import { type BacklashLines, backlashLines, settled, unsettled } from './settled.ts';
import { ridgeOf } from './ridge.ts';
import { steady, type Steady } from './steady.ts';
import { type Case, type Tried, tryGuess } from './tried.ts';

/** A few walks put right what the straight pictures along the ridge got wrong. */
const walks = 8;

/**
 * Axles that would all have shown what was read, as many as the belief deserves of each kind: drawn along the ridge on
 * which film, relief and position trade against each other, then every axle walks among the others (Metropolis steps
 * along differences of two others: ter Braak 2006, from memory).
 */
export function drawAxles(belief: Belief, count: number, stops = ridgeOf(belief)): readonly Axle[] {
  const [{ about }, chance] = [belief, steady()];
  const lines = backlashLines(about.prior, about.readings);
  let now: readonly Tried[] = drawnAlongRidge(about, stops, count, chance).map((tried) => settled(about, lines, tried));
  for (let walk = 0; walk < walks; walk += 1) now = walked({ about, lines, chance }, now, walk);
  return now.map((tried) => axleFrom(about.prior, unsettled(lines, tried, chance)));
}

interface Walk {
  readonly about: Case;
  readonly lines: BacklashLines;
  readonly chance: Steady;
}

/** Every axle once: a step along the difference of two others, with the backlash that goes best with it. */
function walked({ about, lines, chance }: Walk, now: readonly Tried[], walk: number): Tried[] {
  const after = [...now];
  after.forEach((here, index) => {
    const [one, other] = [after[chance.below(after.length)], after[chance.below(after.length)]];
    const size = here.guess.length;
    // Every third walk is a long one, that crosses from one end of a ridge to the other.
    const stride = (walk % 3 === 2 ? 0.9 : 2.38 / Math.sqrt(2 * size)) * (0.6 + 0.8 * chance.even());
    const guess = here.guess.map(
      (value, k) => value + stride * ((one?.guess[k] ?? 0) - (other?.guess[k] ?? 0)) + 0.03 * chance.normal(),
    );
    const tried = settled(about, lines, tryGuess(about, guess));
    if (Math.log(1 - chance.even()) < (here.cost - tried.cost) / 2) after[index] = tried;
  });
  return after;
}
