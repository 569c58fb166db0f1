import { useMemo, useState } from 'react';
import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { reclocking } from '../../../../shared/job/gear/reclocking.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { reclockWords } from '../../../../shared/presentation/words/reclocking.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { useSession } from '../../../stores/session.ts';
import { numberTyped } from '../stem/numbers.ts';
import './together.css';

interface ReclockPanelProps {
  readonly build: Build;
  readonly assembly: Assembly;
  /** Speaks up only where another position is worth the work. */
  readonly onlyWorth?: boolean;
}

/** Whether another bolt position would make the runout less; it asks for the bolts once, and offers only what gains. */
export function ReclockPanel({ build, assembly, onlyWorth = false }: ReclockPanelProps) {
  const units = useSession((session) => session.units);
  const stand = useMemo(() => (isDescribed(build) ? reclocking(build, assembly) : undefined), [build, assembly]);
  if (stand === undefined || !isDescribed(build)) return undefined;
  const worth = !('ask' in stand) && stand.worth;
  if (onlyWorth && !worth) return undefined;
  return (
    <section className="together" aria-label="Re-clocking the ring gear">
      <h3 className="together__title">{worth ? 'A better position on the flange' : 'Position on the flange'}</h3>
      {'ask' in stand ? <Bolts makeUp={build.makeUp} /> : <p>{reclockWords(stand, units)}</p>}
    </section>
  );
}

const fewest = 4;
const most = 40;

function Bolts({ makeUp }: { readonly makeUp: MakeUp }) {
  const [text, setText] = useState('');
  const [tried, setTried] = useState(false);
  const typed = numberTyped(text, fewest, most);
  const bolts = Number.isInteger(typed) ? typed : undefined;
  const keep = (): void => {
    setTried(true);
    if (bolts !== undefined) void writeDeed({ kind: 'described', makeUp: { ...makeUp, ringBolts: bolts } });
  };
  return (
    <>
      <p>Flange and ring gear were both read with their places. The bolts say which positions there are.</p>
      <div className="together__ask">
        <Field
          label="Bolts of the ring gear"
          inputMode="numeric"
          value={text}
          error={tried && bolts === undefined ? `Count them: ${fewest} to ${most}.` : undefined}
          onChange={setText}
        />
        <Button onPress={keep}>Find the best position</Button>
      </div>
    </>
  );
}
