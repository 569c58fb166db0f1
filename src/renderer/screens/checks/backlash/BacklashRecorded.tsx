import { useMemo } from 'react';
import { showText } from '../../../../shared/basics/show.ts';
import type { Measurement } from '../../../../shared/job/records/build.ts';
import { isReadOnce, readOnce } from '../../../../shared/job/captures/readOnce.ts';
import type { BacklashResult, StationResult } from '../../../../shared/job/records/measurement.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { basisWords, judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { Ring } from '../../../instruments/Ring.tsx';
import { Unrolled } from '../../../instruments/Unrolled.tsx';
import { useScrolls } from '../../../parts/scrolls.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useSession } from '../../../stores/session.ts';
import { flagSentences } from '../../../words/flags.ts';
import { orReason, resultBrief, withDoubt } from '../../../../shared/presentation/words/results.ts';
import { drawnLimits, limitFor, ringStations, stateOf } from '../../../../shared/presentation/drawing/stations.ts';
import type { Limit, SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { RecordedVerdict } from '../check/RecordedVerdict.tsx';
import { HowTaken } from '../check/HowTaken.tsx';
import { RecordedWords } from '../check/RecordedWords.tsx';
import { ConvertedLimits } from '../stem/ConvertedLimits.tsx';
import { TogetherPanel } from '../together/TogetherPanel.tsx';
import '../check/measure.css';
import './stations.css';

interface BacklashRecordedProps extends CheckProps {
  readonly measurement: Measurement;
  readonly result: BacklashResult;
  readonly onAnew: () => void;
}

/** With more stations than these the rows move together, so that what they mean stays in sight. */
const roomyRows = 6;

/** Backlash as it was recorded: every station, the spread, and the ring. */
export function BacklashRecorded({ build, assembly, check, measurement, result, onAnew }: BacklashRecordedProps) {
  const units = useSession((session) => session.units);
  const [list, scrolls] = useScrolls();
  const sheet = useMemo(() => sheetFor(build, measurement), [build, measurement]);
  const judged = judgeCheck(check, measurement, assembly, sheet);
  const limit = limitFor(sheet, 'backlash', result.basis);
  const view = useMemo(
    () => ({
      quantity: 'Backlash',
      teeth: build.makeUp?.ringTeeth ?? 40,
      stations: ringStations(result.stations, { limit, sheet }),
      ...drawnLimits(limit),
    }),
    [build, result, limit, sheet],
  );
  return (
    <>
      <Stage fill title={check.title}>
        <div className="measure measure--recorded">
          <div className="stations" ref={list} {...(scrolls ? { tabIndex: 0 } : {})}>
            <RecordedVerdict judged={judged}>{resultBrief(result, units)}</RecordedVerdict>
            <Stations result={result} limit={limit} sheet={sheet} />
            <p className="digits">
              Mean {withDoubt(result.mean_mm, result.meanU95_mm, 'length', units)}, variation{' '}
              {withDoubt(result.variation_mm, result.variationU95_mm, 'length', units)}
            </p>
            <HowTaken measurement={measurement} />
            {result.stations.some(isReadOnce) ? <p className="quiet">{flagSentences([readOnce])}</p> : undefined}
            <ConvertedLimits build={build} basis={result.basis} />
            <TogetherPanel build={build} assembly={assembly} />
          </div>
          <Ring view={view} />
          <Unrolled view={view} />
        </div>
      </Stage>
      <RecordedWords
        build={build}
        title="Backlash"
        judged={judged}
        measurement={measurement}
        otherwise={`Felt ${basisWords(result.basis)}.`}
        onAnew={onAnew}
      />
    </>
  );
}

interface StationsProps {
  readonly result: BacklashResult;
  readonly limit: Limit | undefined;
  readonly sheet: SpecSheet | undefined;
}

/** Every station with its number, its doubt and how it stands against the window. */
function Stations({ result: { stations }, limit, sheet }: StationsProps) {
  const units = useSession((session) => session.units);
  return (
    <table className={`stations__table${stations.length > roomyRows ? ' stations__table--close' : ''}`}>
      <tbody>
        {stations.map((station) => (
          <tr key={station.number}>
            <td>
              <StateMark shape={stateOf(station, limit, sheet)} size={18} />
            </td>
            <th scope="row">Station {station.number}</th>
            <td className="digits stations__number">{orReason(station.value_mm, 'length', units)}</td>
            <td className="digits quiet">
              {isNone(station.U95_mm) ? '' : `± ${showText(station.U95_mm, 'length', units)}`}
            </td>
            <td className="quiet">{rocksWords(station)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A station that was typed has no rocks, and one that was left out has nothing. */
function rocksWords(station: StationResult): string {
  if (isReadOnce(station)) return 'read once';
  return station.rocks === 0 ? '' : `${station.rocks} rocks`;
}
