import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';

/** Stations offered first, the likeliest before the others. */
const likely = [8, 12, 6] as const;

/**
 * At stations among which those of the backlash are, so that the two can be laid beside each other and a pause tells where the
 * high spot lies. One turn without a stop has no angle in it.
 * @param backlashStations round the gear
 */
export const atStations = (backlashStations: number): CaptureSettingsOf<'runout'> => ({
  kind: 'runout',
  mode: 'stations',
  stations: likely.find((count) => count % backlashStations === 0) ?? likely[0],
});

const oneTurn: CaptureSettingsOf<'runout'> = { kind: 'runout', mode: 'continuous' };

const counts = ['4', '6', '8', '12'] as const;

export const runoutOptions = [
  ...counts.map((count) => ({ value: count, words: `${count} stations` })),
  { value: 'continuous', words: 'One turn without a stop' },
];

export const optionOf = (settings: CaptureSettingsOf<'runout'>): string =>
  settings.mode === 'continuous' ? 'continuous' : String(settings.stations ?? 8);

export const settingsOf = (option: string): CaptureSettingsOf<'runout'> =>
  option === 'continuous' ? oneTurn : { kind: 'runout', mode: 'stations', stations: Number(option) };
