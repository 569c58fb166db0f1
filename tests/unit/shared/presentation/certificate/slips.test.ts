import { describe, expect, it } from 'vitest';
import { readNotebook, type Swap } from '../../../../../src/shared/job/records/build.ts';
import { certificateContent } from '../../../../../src/shared/presentation/certificate/content.ts';
import { swapCardBlocks, tagBlocks } from '../../../../../src/shared/presentation/certificate/slips.ts';
import { certified } from '../../../../support/records/finished.ts';
import { wholeNotebook } from '../../../../support/records/wholeBuild.ts';

const entries = wholeNotebook({
  trials: 2,
  stations: 8,
  more: [{ kind: 'noted', topic: 'plate', text: 'AB-12 CD' }, certified],
});
const build = readNotebook('b1', entries);
const content = certificateContent({ id: 'b1', entries });

describe('the tag for an axle', () => {
  it('says how it left, under the number by which it is found again', () => {
    const blocks = tagBlocks(content, build, { system: 'metric' });
    const told = JSON.stringify(blocks);
    for (const words of [
      'Certificate aaaaaaaa',
      'AB-12 CD',
      '0.220–0.244 mm',
      '3.05 N·m',
      '1.28 mm',
      '13 and 45 teeth',
    ])
      expect(told).toContain(words);
    expect(told).not.toMatch(/\bsafe\b/iu);
    expect(JSON.stringify(tagBlocks(content, build, { system: 'inch' }))).toContain('27.0 in-lb');
  });

  it('says that no certificate was issued, and that nothing was measured', () => {
    const begun = entries.slice(0, 2);
    const told = tagBlocks(certificateContent({ id: 'b1', entries: begun }), readNotebook('b1', begun), {
      system: 'metric',
    });
    expect(JSON.stringify(told)).toContain('No certificate issued');
    expect(JSON.stringify(told)).toContain('Nothing has been put together');
  });
});

describe('a swap card on paper', () => {
  const trial = build.assemblies.find(({ phase }) => phase === 'trial');
  const swap: Swap = {
    id: 's1',
    at: '2026-01-05T08:25:00.000Z',
    by: 'A. Tester',
    assembly: trial?.id ?? '',
    chosenBy: 'plan',
    pinionOut_mm: 0.05,
    ringAway_mm: -0.02,
    lines: [{ place: 'pinion-depth', out: { value: 1.28, unit: 'mm' }, wanted_mm: 1.23 }],
    notches: -2,
    expected: { backlash: { mean_mm: 0.21, min_mm: 0.2, max_mm: 0.22, U95_mm: 0.02 }, lengthwise: false },
  };

  it('says what comes out and goes in, by how much, and what should be read then', () => {
    const told = JSON.stringify(swapCardBlocks(build, swap, 'metric'));
    for (const words of [
      'After trial 1',
      '1.28 mm',
      '1.230 mm',
      '−0.050 mm',
      '2 notches closer to',
      '0.210 mm ± 0.020 mm',
    ])
      expect(told).toContain(words);
  });

  it('has the pack that was measured beside it once it was', () => {
    const how = { kind: 'typed', tool: 'micrometer', resolution: { value: 0.001, unit: 'mm' } } as const;
    const pack = { place: 'pinion-depth', each: [], pack: { value: 1.229, unit: 'mm' } } as const;
    const measured = { packs: [{ ...pack, each: [...pack.each] }], how, at: swap.at };
    expect(JSON.stringify(swapCardBlocks(build, { ...swap, measured }, 'metric'))).toContain('1.229 mm');
  });
});
