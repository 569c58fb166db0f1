import { useState } from 'react';
import { isNone, ok } from '../../../../shared/basics/result.ts';
import { figureInside } from '../../../../shared/job/captures/torqueScale.ts';
import { looksBack_s, standsStill } from '../../../../shared/measuring/standstill.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { insideOf, type QuantityTyped } from '../../../../shared/basics/recorded.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { fewestRepeats, type GaugeCheckJudged, judgeGaugeCheck } from '../../../../shared/job/records/gaugeCheck.ts';
import { Readout } from '../../../instruments/Readout.tsx';
import { slotOf } from '../../../live/slots.ts';
import { Button } from '../../../parts/Button.tsx';
import { atField, type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { type DraftForm, useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { isLive, useGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';
import { measureOfKind } from './draft.ts';

interface ReadingTaken {
  readonly seq: number;
  readonly value: number;
}

/** The daily check: zero, a block or a weight on an arm, and that again. */
export function GaugeCheckUp({ gauge, onDone }: { readonly gauge: Gauge; readonly onDone: () => void }) {
  const units = useSession((session) => session.units);
  const measure = measureOfKind(gauge.kind, gauge.resolution.unit);
  const form = useCheckForm(gauge, measure, onDone);
  const { draft, change, read } = form;
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
            draft={draft.known}
            onChange={(known) => change({ known })}
          />
          <div>
            <TakenList rows={[draft.zero, ...draft.shown]} textOf={(value) => text(value, gauge, units)} />
            {read.ok ? <Verdict judged={judgeGaugeCheck(valuesOf(read.value), gauge)} gauge={gauge} /> : undefined}
          </div>
        </div>
      </Stage>
      <CheckWords gauge={gauge} form={form} onDone={onDone} />
    </>
  );
}

function useCheckForm(gauge: Gauge, measure: Measure, onDone: () => void) {
  const units = useSession((session) => session.units);
  const held = useHeld<CheckDraft>(() => ({ known: emptyDraft(measure, units), zero: undefined, shown: [] }));
  return useDraft(held, {
    read: (draft) => readCheck(draft, measure),
    keep: async (read) => {
      const kept = await keepCheck(gauge, read);
      if (kept) onDone();
      return kept;
    },
  });
}

interface CheckDraft {
  readonly known: QuantityDraft;
  readonly zero: ReadingTaken | undefined;
  /** What it showed at the amount, each time it lay there. */
  readonly shown: readonly ReadingTaken[];
}

interface CheckRead {
  readonly known: QuantityTyped;
  readonly zero: ReadingTaken;
  readonly shown: readonly ReadingTaken[];
}

/** A check is whole with a zero, an amount, and that amount laid on often enough. */
function readCheck({ known, zero, shown }: CheckDraft, measure: Measure): DraftRead<CheckRead, FieldErrors<'known'>> {
  const read = atField('known', readDraft(known, measure, 'known'));
  if (!read.ok) return read;
  return zero === undefined || shown.length < fewestRepeats ? wrong({}) : ok({ known: read.value, zero, shown });
}

const valuesOf = ({ known, zero, shown }: CheckRead) => ({
  zero: zero.value,
  shown: shown.map(({ value }) => value),
  known,
});

async function keepCheck(gauge: Gauge, { known, zero, shown }: CheckRead): Promise<boolean> {
  const { technician } = useSession.getState();
  const by = technician.trim() === '' ? 'not named' : technician;
  const seqs = { zeroSeq: zero.seq, shownSeqs: shown.map(({ seq }) => seq) };
  return (await ask('gauge-checks.keep', { gauge: gauge.id, by, known, ...seqs })) !== undefined;
}

interface CheckWordsProps {
  readonly gauge: Gauge;
  readonly form: DraftForm<CheckDraft, CheckRead, FieldErrors<'known'>>;
  readonly onDone: () => void;
}

/** What the hand does next, and what comes of the check. */
function CheckWords({ gauge, form, onDone }: CheckWordsProps) {
  const units = useSession((session) => session.units);
  const live = useGauges((seen) => isLive(seen.states[gauge.id]));
  const { draft, change, read, submit } = form;
  const known = readDraft(draft.known, measureOfKind(gauge.kind, gauge.resolution.unit), 'known');
  const [moving, setMoving] = useState(false);
  const take = (): void => {
    const { seq, value } = slotOf(gauge.id);
    if (value === undefined) return;
    const stands = standsNow(gauge);
    setMoving(!stands);
    if (!stands) return;
    change(draft.zero === undefined ? { zero: { seq, value } } : { shown: [...draft.shown, { seq, value }] });
  };
  const amount = known.ok ? showText(insideOf(known.value), dimension(gauge), units) : 'the amount';
  const again = `Take it at ${amount} (${draft.shown.length + 1} of ${fewestRepeats})`;
  const begun = draft.zero !== undefined;
  return (
    <Words
      title={begun ? 'Lay the amount on, take it off, lay it on again' : 'Let it stand at its zero'}
      next={
        read.ok
          ? { words: 'Keep the check', run: submit }
          : { words: begun ? again : 'Take its zero', run: take, disabled: !live || (begun && !known.ok) }
      }
      others={<Button onPress={onDone}>Leave the check</Button>}
    >
      {moving ? (
        <p role="alert">
          <StateMark shape="outside" size={16} /> <strong>It moved while it was read.</strong> Let it stand, then take
          it.
        </p>
      ) : undefined}
      <p>It is kept with the gauge and its day. It does not take the place of a calibration.</p>
    </Words>
  );
}

/** Whether the gauge has stood for a moment; the bench looks again, in the journal, when the check is kept. */
function standsNow(gauge: Gauge): boolean {
  const { t, trail } = slotOf(gauge.id);
  const readings = trail
    .points(t - looksBack_s)
    .flatMap((point) => (isNone(point.v) ? [] : [{ t: point.t, value: point.v }]));
  return standsStill(readings, figureInside(gauge.resolution, gauge));
}

interface TakenListProps {
  /** The zero, then what it showed at the amount. */
  readonly rows: readonly (ReadingTaken | undefined)[];
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
  const { off, spread, allowed, verdict, why } = judged;
  const numbers = `Off by ${text(off, gauge, units)}, repeats within ${text(spread, gauge, units)}`;
  return (
    <p role="status">
      <StateMark shape={verdict === 'not-stated' ? 'recorded' : verdict} size={16} /> {numbers}
      {allowed === undefined
        ? '; no error is stated to hold it against.'
        : `; its stated error and display allow ${text(allowed, gauge, units)}.`}{' '}
      {why === undefined ? undefined : <strong>{why} Wherever it is used, this is said beside its readings.</strong>}
    </p>
  );
}
