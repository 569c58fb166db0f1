import { useEffect, useState } from 'react';
import { type LooseMeasurement, mostLoose } from '../../../../shared/contract/builds.ts';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { everyPage } from '../../../stores/pages.ts';
import { useSession } from '../../../stores/session.ts';
import { resultBrief } from '../../../../shared/presentation/words/results.ts';
import { timeWords } from '../../../words/days.ts';
import { AdoptSheet } from './AdoptSheet.tsx';

/** So many are looked through at a glance (own choice). */
const atOnce = 12;

const allLoose = (): Promise<readonly LooseMeasurement[] | undefined> =>
  everyPage((before) => ask('measurements.loose', before === undefined ? {} : { before }), mostLoose);

/** Numbers kept without a build, newest first, each with the way into one. */
export function Kept({ fresh }: { readonly fresh: LooseMeasurement | undefined }) {
  const units = useSession((session) => session.units);
  const [loose, setLoose] = useState<readonly LooseMeasurement[]>([]);
  const [adopting, setAdopting] = useState<LooseMeasurement>();
  const [shown, setShown] = useState(atOnce);
  const load = (): void => void allLoose().then((kept) => setLoose(kept ?? []));
  useEffect(load, [fresh]);
  const open = loose.filter((one) => one.keptIn === undefined).toSorted((a, b) => b.at.localeCompare(a.at));
  if (open.length === 0)
    return <p className="quiet">A number worth keeping is listed here and can go into a build later.</p>;
  return (
    <>
      <ul className="kept">
        {open.slice(0, shown).map((one) => (
          <li key={one.id} className="kept__one">
            <span className="digits">
              <strong>{resultBrief(one.result, units)}</strong> <span>{one.gauge.label}</span>{' '}
              <span className="quiet">{timeWords(one.at)}</span>
            </span>
            <Button onPress={() => setAdopting(one)} more={`${resultBrief(one.result, units)} of ${one.gauge.label}`}>
              Into a build
            </Button>
          </li>
        ))}
      </ul>
      {open.length > shown ? (
        <Button onPress={() => setShown(shown + atOnce)}>
          Show {Math.min(atOnce, open.length - shown)} more of {open.length}
        </Button>
      ) : undefined}
      {adopting === undefined ? undefined : (
        <AdoptSheet
          loose={adopting}
          onClose={() => {
            setAdopting(undefined);
            load();
          }}
        />
      )}
    </>
  );
}
