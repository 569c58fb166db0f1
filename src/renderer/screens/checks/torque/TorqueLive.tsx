import { useState } from 'react';
import { endsOf, type Limit } from '../../../../shared/job/records/specSheet.ts';
import { type Begun, useRun } from '../../../live/run.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { useSession } from '../../../stores/session.ts';
import { limitWords } from '../../../../shared/presentation/words/limits.ts';
import type { CheckProps } from '../check/checkProps.ts';
import type { LiveProps } from '../check/liveProps.ts';
import { GaugePick } from '../check/GaugePick.tsx';
import { NoGauge, waysToRead } from '../check/NoGauge.tsx';
import { record } from '../check/record.ts';
import { SimulatedHand } from '../check/SimulatedHand.tsx';
import { useNoted } from '../check/useUnfinished.ts';
import { type Measuring, useMeasuring } from '../check/useMeasuring.ts';
import { basisWanted, torqueBases, torqueLimit, torqueResultOf, torqueSettings } from './settings.ts';
import { TorquePicture } from './TorquePicture.tsx';
import { torqueWords } from './words.ts';
import '../check/measure.css';

/** Rotating torque while the pinion turns: the running mean, with the breakaway kept apart. */
export function TorqueLive({ found, onByHand, ...props }: LiveProps) {
  const { build, assembly, check } = props;
  const quantity = check.limits[0];
  const [basis, setBasis] = useState(() =>
    found?.settings.kind === 'torque' ? found.settings.basis.basis : basisWanted(build.specSheet, quantity, assembly),
  );
  const [begun, setBegun] = useState<Begun | undefined>(found);
  const settings = torqueSettings(assembly, basis);
  const measuring = useMeasuring(settings, build.specSheet, { begun });
  useNoted(props);
  const change = (changed: typeof basis): void => {
    setBegun(undefined);
    setBasis(changed);
  };
  const { gauge, all, choose, live } = measuring;
  const limit = torqueLimit(build.specSheet, quantity, settings.basis);
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={
          <div className="measure__set-up">
            {live ? (
              <SimulatedHand
                action={{ do: 'turn-pinion', what: check.id === 'total-torque' ? 'total' : 'pinion' }}
                assembly={assembly}
              />
            ) : undefined}
            <GaugePick gauge={gauge} all={all} choose={choose} />
            <Choice bare label="Which torque counts" value={basis} onChange={change} options={torqueBases} />
          </div>
        }
      >
        {gauge === undefined || !live ? (
          <NoGauge kind="torque" gauge={gauge} />
        ) : (
          <TorquePicture gauge={gauge} band={limit === undefined ? undefined : endsOf(limit)} />
        )}
      </Stage>
      <TorqueLiveWords {...{ props, basis, limit, measuring, onByHand }} isBegun={begun !== undefined} />
    </>
  );
}

interface TorqueLiveWordsProps {
  readonly props: CheckProps;
  readonly basis: 'running' | 'starting';
  readonly limit: Limit | undefined;
  readonly measuring: Measuring;
  /** It was read on an earlier visit and is not recorded. */
  readonly isBegun: boolean;
  readonly onByHand: () => void;
}

function TorqueLiveWords({ props, basis, limit, measuring, isBegun, onByHand }: TorqueLiveWordsProps) {
  const ways = waysToRead(measuring.gauge, measuring.live, onByHand);
  const { assembly, check } = props;
  const units = useSession((session) => session.units);
  const result = useRun(({ run }) => torqueResultOf(run));
  const isBefore = useRun(({ run }) => isBegun && run?.held === true);
  const keep = {
    words: `Record ${check.title.toLowerCase()}`,
    run: () => void record(props),
    disabled: result === undefined,
  };
  return (
    <Words
      title={titleOf(result !== undefined, isBefore)}
      next={ways.first ?? keep}
      others={
        <>
          {measuring.live ? (
            <Button onPress={measuring.again} keyHint="PgUp">
              Again
            </Button>
          ) : undefined}
          <Button onPress={ways.beside.run}>{ways.beside.words}</Button>
        </>
      }
    >
      <p>{result === undefined ? check.how : <strong>{torqueWords(result, units)}</strong>}</p>
      <p className="quiet">
        {limit === undefined
          ? `No limit is entered for a ${basis} torque, seal ${assembly.seal}, ${assembly.bearings} bearings.`
          : `Limit ${limitWords(limit, units)}.`}
      </p>
    </Words>
  );
}

function titleOf(isRead: boolean, isBefore: boolean): string {
  if (!isRead) return 'Turn steadily, whole turns';
  return isBefore ? 'Read before and not recorded yet' : 'Record it when the number stands';
}
