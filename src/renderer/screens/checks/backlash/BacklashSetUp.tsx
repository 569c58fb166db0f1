import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { Pick } from '../../../parts/Pick.tsx';
import { BacklashStem } from '../stem/BacklashStem.tsx';

export const stationCounts = ['3', '4', '6', '8', '12'] as const;

interface BacklashSetUpProps {
  readonly settings: CaptureSettingsOf<'backlash'>;
  readonly onChange: (settings: CaptureSettingsOf<'backlash'>) => void;
  readonly heelRadius_mm: number | undefined;
}

/** How many stations, what ends one, and how the stem stands. */
export function BacklashSetUp({ settings, onChange, heelRadius_mm }: BacklashSetUpProps) {
  return (
    <div className="measure__set-up">
      <Pick
        bare
        label="Stations"
        value={String(settings.stations ?? 4)}
        onChange={(stations) => onChange({ ...settings, stations: Number(stations) })}
        options={stationCounts.map((count) => ({ value: count, words: `${count} stations` }))}
      />
      <Pick
        bare
        label="What ends a station"
        value={settings.nextBy}
        onChange={(nextBy) => onChange({ ...settings, nextBy })}
        options={[
          { value: 'itself', words: 'Goes on by itself' },
          { value: 'press', words: 'Goes on by pedal' },
        ]}
      />
      <BacklashStem settings={settings} onChange={onChange} heelRadius_mm={heelRadius_mm} />
    </div>
  );
}
