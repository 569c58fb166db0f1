import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { ask } from '../../../stores/ask.ts';
import { type GaugeDraft, readGauge } from './draft.ts';

/** The record of a gauge being filled in; `onSaved` runs once the shop has it. */
export const useGaugeForm = (start: () => GaugeDraft, onSaved: (gauge: Gauge) => Promise<void> | void) =>
  useDraft(useHeld(start), {
    read: readGauge,
    keep: async (record) => {
      const gauge = await ask('gauges.save', { gauge: record });
      if (gauge === undefined) return false;
      await onSaved(gauge);
      return true;
    },
  });
