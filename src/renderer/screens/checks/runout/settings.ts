import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';

export const oneTurn: CaptureSettingsOf<'runout'> = { kind: 'runout', mode: 'continuous' };

const counts = ['4', '6', '8', '12'] as const;

export const runoutOptions = [
  { value: 'continuous', words: 'One turn without a stop' },
  ...counts.map((count) => ({ value: count, words: `${count} stations` })),
];

export const optionOf = (settings: CaptureSettingsOf<'runout'>): string =>
  settings.mode === 'continuous' ? 'continuous' : String(settings.stations ?? 8);

export const settingsOf = (option: string): CaptureSettingsOf<'runout'> =>
  option === 'continuous' ? oneTurn : { kind: 'runout', mode: 'stations', stations: Number(option) };
