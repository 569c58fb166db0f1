import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { SwapPlanned } from '../../../../shared/job/records/swap.ts';
import { byBacklashWords, notchWords } from '../../../../shared/job/swap/swapWords.ts';

interface AdjusterTurnsProps {
  readonly swap: SwapPlanned;
  readonly units: UnitSystem;
}

/** The turns of the adjusters in their order; in millimetres and by backlash while nobody knows what a notch does. */
export function AdjusterTurns({ swap: { notches, ringAway_mm }, units }: AdjusterTurnsProps) {
  const turns = turnsFor(notches, ringAway_mm, units);
  return (
    <section>
      <h2 className="plan__heading">Side adjusters</h2>
      {turns.length === 0 ? (
        <p>They stay where they are.</p>
      ) : (
        <ol className="swap__turns">
          {turns.map((turn) => (
            <li key={turn}>{turn}</li>
          ))}
        </ol>
      )}
    </section>
  );
}

function turnsFor(notches: number | undefined, ringAway_mm: number, units: UnitSystem): readonly string[] {
  if (notches !== undefined) return notchWords(notches);
  return Math.abs(ringAway_mm) < 0.0005 ? [] : [byBacklashWords(ringAway_mm, units)];
}
