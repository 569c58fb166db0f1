import { type Assembly, type Build, waitingSwap } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { CheckState } from '../../../../shared/job/checks/readiness.ts';
import { type RingGearMove, ringGearMove } from '../../../../shared/job/planning/ringGearMove.ts';
import type { SwapPlanned } from '../../../../shared/job/records/swap.ts';
import { makeSwap } from '../../../../shared/job/swap/makeSwap.ts';
import { useNotebook, writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';

/** The ring gear's way into the window, as the one next action and as what should be read then. */
interface Moving {
  readonly move: RingGearMove;
  readonly card: SwapPlanned;
  readonly next: (units: UnitSystem) => { readonly words: string; readonly run: () => void };
}

/** A backlash that is out in a trial is brought in by the ring gear, before any paint. Nothing for every other check. */
export function movingFor(
  build: Build & { readonly makeUp: MakeUp },
  trial: Assembly,
  state: CheckState,
): Result<Moving> | undefined {
  const isOut = state.check.id === 'backlash' && state.standing === 'outside';
  if (!isOut || trial.phase !== 'trial') return undefined;
  const move = ringGearMove(build, trial);
  if (!move.ok) return move;
  const { ringAway_mm, expected } = move.value;
  const card = makeSwap(build.makeUp, trial, { by: 'own', move: { pinionOut: 0, ringAway: ringAway_mm }, expected });
  if (!card.ok) return card;
  const next = (units: UnitSystem) => ({
    words: `Move the ring gear ${showText(Math.abs(ringAway_mm), 'length', units)} ${ringAway_mm > 0 ? 'away' : 'closer'}`,
    run: () => void openCard(build, trial, card.value),
  });
  return ok({ move: move.value, card: card.value, next });
}

/** One card a trial: a second look at the same way goes to the card that is there. */
async function openCard(build: Build, trial: Assembly, swap: SwapPlanned): Promise<void> {
  const waiting = waitingSwap(build);
  if (waiting === undefined && !(await writeDeed({ kind: 'swap-planned', assembly: trial.id, swap }))) return;
  const card = waiting ?? useNotebook.getState().build?.swaps.at(-1);
  if (card !== undefined) go({ at: 'swap', build: build.id, swap: card.id });
}

/** What the move is for and what should be read then, or why there is none. */
export function MovingWords({ move }: { readonly move: Result<Moving> }) {
  const units = useSession((session) => session.units);
  if (!move.ok) return <NoMove problem={move.problem} />;
  const { brings, binds, expected } = move.value.move;
  const length = (value: number): string => showText(value, 'length', units);
  if (binds)
    return (
      <p>
        The gears bind, so nobody can read by how much they overlap. Take the ring gear away, read the backlash again,
        and go on from there; the pinion stays.
      </p>
    );
  const { min_mm, max_mm, U95_mm } = expected.backlash;
  return (
    <>
      <p>
        Backlash is brought in by the ring gear alone, before any paint: {length(min_mm)} to {length(max_mm)} is
        expected, ± {length(U95_mm)}.
      </p>
      {brings ? undefined : <p>One step may not bring every station in: read it again and go on from there.</p>}
    </>
  );
}

const NoMove = ({ problem }: { readonly problem: Problem }) => (
  <p>
    {problem.sentence} {problem.remedy}
  </p>
);
