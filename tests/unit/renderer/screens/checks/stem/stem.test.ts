import type { CaptureSettingsOf } from '../../../../../../src/shared/job/records/measurement.ts';
import { describe, expect, it } from 'vitest';
import {
  lastBacklashSettings,
  stemBrief,
  stemSentence,
  withStem,
} from '../../../../../../src/renderer/screens/checks/stem/backlashStem.ts';
import { numberTyped } from '../../../../../../src/renderer/screens/checks/stem/numbers.ts';
import { fromMeshWords, lastRunoutStem } from '../../../../../../src/renderer/screens/checks/stem/runoutStem.ts';
import type { CaptureSettings, How } from '../../../../../../src/shared/job/records/measurement.ts';
import { backlash, buildOf, measured, notebook, trial } from '../../../../../support/records/scenario.ts';
import { runoutOf } from '../../../../../support/records/gearStand.ts';

const along: CaptureSettingsOf<'backlash'> = {
  kind: 'backlash',
  basis: { direction: 'along-rotation', at: 'heel' },
  nextBy: 'itself',
};
const square: CaptureSettingsOf<'backlash'> = { ...along, basis: { direction: 'square-to-tooth', at: 'heel' } };

const streamed = (settings: CaptureSettings): How => ({
  kind: 'streamed',
  gauge: { id: 'g', label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } },
  stretch: { gauge: 'g', from: 0, to: 9 },
  settings,
});

describe('how the stem stands for backlash', () => {
  it('leaves no trace in the settings where it says nothing', () => {
    expect(withStem(along, { tip: 'rides-flank', off_deg: 0 }, along.basis)).toEqual(along);
    const off = withStem(along, { tip: 'rides-flank', off_deg: 10 }, along.basis);
    expect(off.stem).toEqual({ tip: 'rides-flank', off_deg: 10 });
    expect(withStem(off, { tip: 'rides-flank', off_deg: 0 }, along.basis)).toEqual(along);
  });

  it('says in words how it stands and what that does', () => {
    expect(stemBrief(along)).toBe('Along the turn at the heel');
    const off: CaptureSettingsOf<'backlash'> = { ...square, stem: { tip: 'rides-flank', off_deg: 10 } };
    expect(stemBrief(off)).toBe('Square to the tooth at the heel, 10° off');
    expect(stemSentence(off)).toBe('It reads 1.5 % high as it stands; every number is freed from that.');
    const point: CaptureSettingsOf<'backlash'> = { ...along, stem: { tip: 'follows-point', off_deg: 10 } };
    expect(stemSentence(point)).toMatch(/^It reads 1\.5 % low/u);
    expect(stemSentence(along)).toMatch(/reads truly/u);
    expect(stemSentence({ ...along, stem: { tip: 'rides-flank', off_deg: 5 } })).toMatch(/the doubt grows/u);
  });

  it('is taken over from the last time in this build', () => {
    const said = { ...along, stem: { tip: 'follows-point', off_deg: 5 } } as const;
    const taken = measured('e1', 'backlash', backlash([0.2, 0.2, 0.2, 0.2]), streamed(said));
    expect(lastBacklashSettings(buildOf(notebook(trial, taken)))).toEqual(said);
    expect(lastBacklashSettings(buildOf(notebook(trial)))).toBeUndefined();
  });
});

describe('where the stem stands for a runout', () => {
  const runout = (more: object) => streamed({ kind: 'runout', mode: 'continuous', ...more });
  const flange = measured('e1', 'flange-runout', runoutOf([]), runout({ fromMesh_deg: 90, radius_mm: 60 }));

  it('is asked once: the place holds for both surfaces, the radius for its own', () => {
    const build = buildOf(notebook(trial, flange));
    expect(lastRunoutStem(build, 'ring-gear-runout')).toEqual({ fromMesh_deg: 90 });
    expect(lastRunoutStem(build, 'flange-runout')).toEqual({ fromMesh_deg: 90, radius_mm: 60 });
    expect(lastRunoutStem(buildOf(notebook(trial)), 'flange-runout')).toEqual({});
  });

  it('takes not known for an answer', () => {
    const notKnown = measured('e1', 'flange-runout', runoutOf([]), runout({ fromMesh_deg: { none: 'not-known' } }));
    const build = buildOf(notebook(trial, notKnown));
    expect(lastRunoutStem(build, 'ring-gear-runout')).toEqual({ fromMesh_deg: { none: 'not-known' } });
    expect(fromMeshWords({ none: 'not-known' })).toBe('Stem’s place not known');
    expect(fromMeshWords(undefined)).toBe('Where does the stem stand?');
    expect(fromMeshWords(90)).toBe('Stem 90° from the mesh');
  });
});

describe('a number typed plainly', () => {
  it('is read with point or comma and only between its ends', () => {
    expect(['12.5', '12,5', ' 7 ', '', 'abc', '361', '-1'].map((text) => numberTyped(text, 0, 360))).toEqual([
      12.5,
      12.5,
      7,
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });
});
