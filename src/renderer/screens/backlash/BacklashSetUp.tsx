import { Pick } from '../../parts/Pick.tsx';
import { backlashBasis, backlashBasisOptions, basisKey, isRadius } from '../limits/basis.ts';
import type { BacklashSettings } from './useBacklashSettings.ts';

const stationCounts = ['3', '4', '6', '8', '12'] as const;

interface BacklashSetUpProps {
  readonly settings: BacklashSettings;
  readonly onChange: (settings: BacklashSettings) => void;
}

/** How many stations, what ends one, and how the backlash is felt. */
export function BacklashSetUp({ settings, onChange }: BacklashSetUpProps) {
  const { at } = settings.basis;
  const radius = at === 'heel' ? undefined : at.radius_mm;
  const bases = backlashBasisOptions.filter((option) => radius !== undefined || !isRadius(option.value));
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
      <Pick
        bare
        label="How the backlash is felt"
        value={basisKey(settings.basis)}
        onChange={(key) => onChange({ ...settings, basis: backlashBasis(key, radius ?? 0) })}
        options={bases}
      />
    </div>
  );
}
