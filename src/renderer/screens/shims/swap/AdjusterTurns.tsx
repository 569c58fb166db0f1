import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { Swap } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import { setTurned, useTurned } from './turned.ts';
import { byBacklashWords, notchWords } from '../../../../shared/job/swap/swapWords.ts';

interface AdjusterTurnsProps {
  readonly swap: Swap;
  readonly units: UnitSystem;
}

/** The turns of the adjusters in their order; in millimetres and by backlash while nobody knows what a notch does. */
export function AdjusterTurns({ swap, units }: AdjusterTurnsProps) {
  const { notches, ringAway_mm } = swap;
  const turns = turnsFor(notches, ringAway_mm, units);
  return (
    <section>
      <h2 className="plan__heading">Side adjusters</h2>
      {turns.length === 0 ? (
        <p>They stay where they are.</p>
      ) : (
        <ol className="swap__turns">
          {[capsFirst, ...turns, capsLast].map((turn) => (
            <li key={turn}>{turn}</li>
          ))}
        </ol>
      )}
      {notches === undefined ? undefined : <Turned swap={swap} />}
    </section>
  );
}

const capsFirst = 'Slacken the caps so far that the adjusters turn by hand with their tool, no further.';
const capsLast = 'Caps to full torque, locks in, then read the backlash.';

/** What was really turned: where the lock fits only at the next hole, the next plan must know it. */
function Turned({ swap }: { readonly swap: Swap }) {
  const turned = useTurned(swap) ?? 0;
  return (
    <p className="swap__turned">
      <span className="digits">Turned: {turnedWords(turned)}</span>
      <Button more="one notch closer" onPress={() => setTurned(swap, turned - 1)}>
        −
      </Button>
      <Button more="one notch away" onPress={() => setTurned(swap, turned + 1)}>
        +
      </Button>
    </p>
  );
}

function turnedWords(notches: number): string {
  if (notches === 0) return 'nothing';
  const count = Math.abs(notches) === 1 ? '1 notch' : `${Math.abs(notches)} notches`;
  return `${count} ${notches > 0 ? 'away' : 'closer'}`;
}

function turnsFor(notches: number | undefined, ringAway_mm: number, units: UnitSystem): readonly string[] {
  if (notches !== undefined) return notchWords(notches);
  return Math.abs(ringAway_mm) < 0.0005 ? [] : [byBacklashWords(ringAway_mm, units)];
}
