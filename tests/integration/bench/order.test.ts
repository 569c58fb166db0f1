import { expect, it, onTestFinished } from 'vitest';
import { openBench } from '../../../src/main/bench/bench.ts';
import { systemClock } from '../../../src/main/clock.ts';
import { newFolder, valueOf } from '../../support/bench/open.ts';
import { specSheet } from '../../support/records/scenario.ts';

const by = 'A. Tester';

it('offers the limits that were typed last, also when the clock was set back between', async () => {
  let wall_ms = Date.parse('2026-05-01T12:00:00Z');
  const clock = { ...systemClock, wall_ms: () => wall_ms };
  const service = valueOf(openBench({ folder: newFolder(), clock, version: 'test' }));
  onTestFinished(async () => void (await service.close()));
  const sheetWith = (note: string) => ({ kind: 'limits-set', specSheet: { ...specSheet, note } }) as const;
  const write = async (title: string, note: string): Promise<void> => {
    const { id: build } = valueOf(await service.answers['builds.start']({ title, technician: by }));
    valueOf(await service.answers['builds.write']({ build, by, deed: sheetWith(note) }));
  };
  await write('Before noon', 'typed first');
  wall_ms -= 3_600_000;
  await write('After the clock was set back', 'typed last');
  expect(valueOf(await service.answers['spec-sheets.list']({})).map(({ note }) => note)).toEqual(['typed last']);
});
