import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { insideOf } from '../../shared/basics/recorded.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { looksBack_s, standsStill } from '../../shared/measuring/standstill.ts';
import { toInside, unitNamed } from '../../shared/basics/units.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import type { GaugeChecks } from '../store/gaugeChecks.ts';
import { type MeasuringDesk, noGauge } from './measurementAnswers.ts';
import { instant } from './writing.ts';

type Names = 'gauge-checks.list' | 'gauge-checks.last' | 'gauge-checks.keep';

/** Daily checks of gauges. What a gauge showed is taken from the journal, as for a measurement. */
export function gaugeCheckAnswers(desk: MeasuringDesk, checks: GaugeChecks): Pick<BenchAnswers, Names> {
  return {
    'gauge-checks.list': async ({ gauge }) => ok([...checks.list(gauge)]),
    'gauge-checks.last': async () => ok(desk.gaugeRecords.list().flatMap(({ id }) => checks.last(id) ?? [])),
    'gauge-checks.keep': async (told) => {
      const gauge = desk.gaugeRecords.read(told.gauge);
      if (gauge === undefined) return fail(noGauge(told.gauge));
      const flushed = desk.journal.flush();
      if (!flushed.ok) return flushed;
      const [zero, ...shown] = [told.zeroSeq, ...told.shownSeqs].map((seq) => readingAt(desk, told.gauge, seq));
      if (zero === undefined || shown.some((value) => value === undefined)) return fail(notThere);
      if ([told.zeroSeq, ...told.shownSeqs].some((seq) => !stoodAt(desk, gauge, seq))) return fail(moved);
      for (const seq of [told.zeroSeq, ...told.shownSeqs]) {
        const kept = desk.journal.keep(seq, seq, 'gauge check');
        if (!kept.ok) return kept;
      }
      const there = shown.filter((value) => value !== undefined);
      const added = checks.add({ ...told, zero, shown: there, at: instant(desk.clock) });
      if (added.ok) desk.outlet.tell('gauge-checked', added.value);
      return added;
    },
  };
}

/** In mm or N·m, or undefined when no reading of this gauge has that row. */
function readingAt(desk: MeasuringDesk, gauge: string, seq: number): number | undefined {
  for (const row of desk.journal.stretch(gauge, seq, seq)) {
    const unit = row.kind === 'reading' ? unitNamed(row.unit) : undefined;
    if (row.kind === 'reading' && unit !== undefined) return toInside(row.value, unit);
  }
  return undefined;
}

/** More rows than any gauge sends while it is watched for standing still. */
const rowsBack = 3000;

/** Whether the gauge had stood for a moment when this row was read: a number taken in passing is none. */
function stoodAt(desk: MeasuringDesk, gauge: Gauge, seq: number): boolean {
  const rows = [...desk.journal.stretch(gauge.id, Math.max(0, seq - rowsBack), seq)];
  const taken = rows.at(-1);
  const readings = rows.flatMap((row) => {
    const unit = row.kind === 'reading' ? unitNamed(row.unit) : undefined;
    if (row.kind !== 'reading' || unit === undefined || taken === undefined) return [];
    return taken.t - row.t <= looksBack_s ? [{ t: row.t, value: toInside(row.value, unit) }] : [];
  });
  return standsStill(readings, insideOf(gauge.resolution));
}

const moved: Problem = {
  kind: 'moved',
  field: 'shownSeqs',
  sentence: 'The gauge moved while it was read for this check.',
  remedy: 'Let it stand, then take the number again.',
};

const notThere: Problem = {
  kind: 'not-on-disk',
  field: 'shownSeqs',
  sentence: 'A reading of this check is not in the journal.',
  remedy: 'Check the gauge again.',
};
