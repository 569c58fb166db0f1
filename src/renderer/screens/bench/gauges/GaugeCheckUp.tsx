import { useState } from 'react';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { fewestRepeats, type GaugeCheckJudged, judgeGaugeCheck } from '../../../../shared/job/records/gaugeCheck.ts';
import { Readout } from '../../../instruments/Readout.tsx';
import { slotOf } from '../../../live/slots.ts';
import { Button } from '../../../parts/Button.tsx';
import { emptyDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { isLive, useGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';
import { measureOfKind } from './draft.ts';

interface Taken {
  readonly seq: number;
  readonly value: number;
}

/** The daily check: zero, a block or a weight on an arm, and that again. */
export function GaugeCheckUp({ gauge, onDone }: { readonly gauge: Gauge; readonly onDone: () => void }) {
  const { units, technician } = useSession();
  const live = useGauges((seen) => isLive(seen.states[gauge.id]));
  const measure = measureOfKind(gauge.kind, gauge.resolution.unit);
  const [draft, setDraft] = useState(() => emptyDraft(measure, units));
  const [zero, setZero] = useState<Taken>();
  const [shown, setShown] = useState<readonly Taken[]>([]);
  const known = readDraft(draft, measure, 'known');
  const enough = zero !== undefined && known.ok && shown.length >= fewestRepeats;
  const judged = enough
    ? judgeGaugeCheck({ zero: zero.value, shown: shown.map(({ value }) => value), known: known.value }, gauge)
    : undefined;

  const take = (): void => {
    const { seq, value } = slotOf(gauge.id);
    if (value === undefined) return;
    if (zero === undefined) setZero({ seq, value });
    else setShown([...shown, { seq, value }]);
  };
  const keep = async (): Promise<void> => {
    if (!enough) return;
    const by = technician.trim() === '' ? 'not named' : technician;
    const seqs = { zeroSeq: zero.seq, shownSeqs: shown.map(({ seq }) => seq) };
    const kept = await ask('gauge-checks.keep', { gauge: gauge.id, by, known: known.value, ...seqs });
    if (kept !== undefined) onDone();
  };
  const amount = known.ok ? showText(insideOf(known.value), dimension(gauge), units) : 'the amount';
  const next = enough
    ? { words: 'Keep the check', run: () => void keep() }
    : {
        words: zero === undefined ? 'Take its zero' : `Take it at ${amount} (${shown.length + 1} of ${fewestRepeats})`,
        run: take,
        disabled: !live || (zero !== undefined && !known.ok),
      };
  return (
    <>
      <Stage title={`Check of ${gauge.label}`}>
        <div className="gauge-check">
          <div className="gauge-check__live">
            <Readout gauge={gauge} words={`Live reading of ${gauge.label}`} />
          </div>
          <QuantityField
            label="Amount that is known"
            hint="Of the block, or the torque of the weight on its arm."
            measure={measure}
            draft={draft}
            onChange={setDraft}
          />
          <div>
            <TakenList rows={[zero, ...shown]} textOf={(value) => text(value, gauge, units)} />
            {judged === undefined ? undefined : <Verdict judged={judged} gauge={gauge} />}
          </div>
        </div>
      </Stage>
      <Words
        title={zero === undefined ? 'Let it stand at its zero' : 'Lay the amount on, take it off, lay it on again'}
        next={next}
        others={<Button onPress={onDone}>Leave the check</Button>}
      >
        <p>It is kept with the gauge and its day. It does not take the place of a calibration.</p>
      </Words>
    </>
  );
}

interface TakenListProps {
  /** The zero, then what it showed at the amount. */
  readonly rows: readonly (Taken | undefined)[];
  readonly textOf: (value: number) => string;
}

/** What has been taken and what is still to come. */
const TakenList = ({ rows, textOf }: TakenListProps) => (
  <ol className="gauge-check__taken digits">
    {Array.from({ length: Math.max(fewestRepeats + 1, rows.length) }, (_, row) => (
      <li key={row}>
        <span className="quiet">{row === 0 ? 'Zero' : `At the amount, ${row}`}</span>
        <span>{rows[row] === undefined ? '–' : textOf(rows[row].value)}</span>
      </li>
    ))}
  </ol>
);

const dimension = (gauge: Gauge): 'torque' | 'length' => (gauge.kind === 'torque' ? 'torque' : 'length');
const text = (value: number, gauge: Gauge, units: UnitSystem): string =>
  showText(value, dimension(gauge), units, insideOf(gauge.resolution));

/** What came of a check, as a mark and in words. */
export function Verdict({ judged, gauge }: { readonly judged: GaugeCheckJudged; readonly gauge: Gauge }) {
  const units = useSession((session) => session.units);
  const { off, spread, allowed, verdict } = judged;
  const numbers = `Off by ${text(off, gauge, units)}, repeats within ${text(spread, gauge, units)}`;
  return (
    <p role="status">
      <StateMark shape={verdict === 'not-stated' ? 'recorded' : verdict} size={16} /> {numbers}
      {allowed === undefined
        ? '; no error is stated to hold it against.'
        : `; its stated error and display allow ${text(allowed, gauge, units)}.`}
    </p>
  );
}
