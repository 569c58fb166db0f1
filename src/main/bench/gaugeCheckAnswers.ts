import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { toInside, unitNamed } from '../../shared/basics/units.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import type { GaugeChecks } from '../store/gaugeChecks.ts';
import { type MeasuringDesk, noGauge } from './measurementAnswers.ts';
import { instant } from './writing.ts';

type Names = 'gauge-checks.list' | 'gauge-checks.keep';

/** Daily checks of gauges. What a gauge showed is taken from the journal, as for a measurement. */
export function gaugeCheckAnswers(desk: MeasuringDesk, checks: GaugeChecks): Pick<BenchAnswers, Names> {
  return {
    'gauge-checks.list': async ({ gauge }) => ok([...checks.list(gauge)]),
    'gauge-checks.keep': async (told) => {
      if (desk.gaugeRecords.read(told.gauge) === undefined) return fail(noGauge(told.gauge));
      const flushed = desk.journal.flush();
      if (!flushed.ok) return flushed;
      const [zero, ...shown] = [told.zeroSeq, ...told.shownSeqs].map((seq) => readingAt(desk, told.gauge, seq));
      if (zero === undefined || shown.some((value) => value === undefined)) return fail(notThere);
      for (const seq of [told.zeroSeq, ...told.shownSeqs]) {
        const kept = desk.journal.keep(seq, seq, 'gauge check');
        if (!kept.ok) return kept;
      }
      const there = shown.filter((value) => value !== undefined);
      return checks.add({ ...told, zero, shown: there, at: instant(desk.clock) });
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

const notThere: Problem = {
  kind: 'not-on-disk',
  field: 'shownSeqs',
  sentence: 'A reading of this check is not in the journal.',
  remedy: 'Check the gauge again.',
};
