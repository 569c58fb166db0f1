import type { CaptureSettings } from '../../../../shared/job/records/measurement.ts';

export type RunoutSettings = Extract<CaptureSettings, { kind: 'runout' }>;

export const oneTurn: RunoutSettings = { kind: 'runout', mode: 'continuous' };

const counts = ['4', '6', '8', '12'] as const;

export const runoutOptions = [
  { value: 'continuous', words: 'One turn without a stop' },
  ...counts.map((count) => ({ value: count, words: `${count} stations` })),
];

export const optionOf = (settings: RunoutSettings): string =>
  settings.mode === 'continuous' ? 'continuous' : String(settings.stations ?? 8);

export const settingsOf = (option: string): RunoutSettings =>
  option === 'continuous' ? oneTurn : { kind: 'runout', mode: 'stations', stations: Number(option) };
