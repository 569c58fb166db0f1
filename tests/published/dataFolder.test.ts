import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { isNone } from '../../src/shared/basics/result.ts';
import { latest, readNotebook } from '../../src/shared/job/records/build.ts';
import { readinessOf, isDescribed } from '../../src/shared/job/checks/readiness.ts';
import { benchInNewFolder, newFolder, valueOf } from '../support/bench/open.ts';

/**
 * Source: records written by version 0.1.0 itself (commit 379badc) and kept in data-folder-0.1.0/ as they were. Retrieved, not made
 * by the code that reads them here.
 */
const kept = join(import.meta.dirname, 'data-folder-0.1.0', 'axlewright.db.gz');

let folder: string;
let service: BenchService;
beforeEach(() => {
  folder = newFolder();
  writeFileSync(join(folder, 'axlewright.db'), gunzipSync(readFileSync(kept)));
  service = benchInNewFolder(undefined, folder);
});
afterEach(() => service.close());

const by = 'Technician A';
async function theOne() {
  const builds = valueOf(await service.answers['builds.list']({}));
  expect(builds.map(({ title, technician }) => [title, technician])).toEqual([['Axle of the first version', by]]);
  const { id, entries } = valueOf(await service.answers['builds.read']({ build: builds[0]?.id ?? '' }));
  return { id, entries, build: readNotebook(id, entries) };
}

describe('records of version 0.1.0', () => {
  it('open without a warning, with everything that was written in them', async () => {
    expect(valueOf(await service.answers['bench.about']({})).warnings).toEqual([]);
    const { entries, build } = await theOne();
    expect(entries.map(({ deed }) => deed.kind)).toEqual([
      'started',
      'described',
      'limits-set',
      'noted',
      'assembled',
      'measured',
      'measured',
      'measured',
      'overridden',
      'photographed',
      'noted',
      'struck',
      'certified',
    ]);
    expect(build.makeUp).toMatchObject({ gearSet: 'new', caseAdjustment: 'outboard-shims' });
    expect(build.specSheet?.limits.map(({ quantity }) => quantity)).toContain('backlash');
    expect(build.certificates).toHaveLength(1);
    const [found] = build.assemblies;
    if (found === undefined) throw new Error('no assembly');
    const backlash = latest(found, 'backlash')?.result;
    if (backlash?.kind !== 'backlash' || isNone(backlash.mean_mm)) throw new Error('no backlash');
    expect(backlash.stations).toHaveLength(1);
    expect(backlash.mean_mm).toBeGreaterThan(0.1);
    expect(latest(found, 'case-end-play')?.result).toMatchObject({ kind: 'quantity', value: { value: 0.04 } });
    expect(latest(found, 'case-tight')?.result).toMatchObject({ kind: 'confirmed', yes: true });
    expect(found.overrides.map(({ check }) => check)).toEqual(['ring-gear-runout']);
  });

  it('give the same backlash when it is worked out again from the readings in them', async () => {
    const { id, build } = await theOne();
    const [found] = build.assemblies;
    const before = found === undefined ? undefined : latest(found, 'backlash');
    if (found === undefined || before?.how.kind !== 'streamed' || before.result.kind !== 'backlash')
      throw new Error('no streamed backlash');
    const { stretch, settings } = before.how;
    const again = await service.answers['measurements.record']({
      build: id,
      by,
      assembly: found.id,
      check: 'backlash',
      stretch,
      settings,
    });
    const deed = valueOf(again).entries.at(-1)?.deed;
    if (deed?.kind !== 'measured' || deed.result.kind !== 'backlash') throw new Error('not measured again');
    const [then, now] = [before.result.mean_mm, deed.result.mean_mm];
    if (isNone(then) || isNone(now)) throw new Error('no number');
    // Later versions count doubt and rests more finely; the number stays within what it said of itself.
    expect(Math.abs(now - then)).toBeLessThan(0.002);
  });

  it('keep their gauges, photo and drawer, and go on', async () => {
    const gauges = valueOf(await service.answers['gauges.list']({}));
    expect(gauges.map(({ label }) => label).toSorted()).toEqual(['Indicator', 'Torque gauge']);
    expect(valueOf(await service.answers['drawer.read']({})).sizes).toMatchObject([{ use: 'side', count: 4 }]);
    const { id, build } = await theOne();
    const [photo] = build.assemblies[0]?.photos ?? [];
    const jpeg = valueOf(await service.answers['photos.read']({ sha256: photo?.sha256 ?? '' })).jpeg_base64;
    expect(Buffer.from(jpeg, 'base64').subarray(0, 2).toString('hex')).toBe('ffd8');
    const deed = { kind: 'noted', topic: 'noise', text: 'Gone on with' } as const;
    expect(valueOf(await service.answers['builds.write']({ build: id, by, deed })).entries.at(-1)?.deed).toEqual(deed);
    const [found] = build.assemblies;
    if (found === undefined || !isDescribed(build)) throw new Error('not described');
    expect(readinessOf(build, found).states.length).toBeGreaterThan(3);
  });
});
