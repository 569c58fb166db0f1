import { expect, it } from 'vitest';
import { setTimeout as pause } from 'node:timers/promises';
import { valueOf } from '../../support/bench/open.ts';
import { simulatedIndicator } from '../../support/simulatedIndicator.ts';

const by = 'Technician A';
const known = { value: 1, unit: 'mm' };
const settings = { kind: 'runout', mode: 'continuous' } as const;

it('a check of a gauge that moved is refused by the bench, whoever sends it', async () => {
  const { service, gauge, stretch } = await simulatedIndicator(['0.100', '0.400', '0.700', '1.000', '1.300', '1.600']);
  const seqs = [stretch.to, stretch.to, stretch.to];
  expect(
    await service.answers['gauge-checks.keep']({ gauge, by, known, zeroSeq: stretch.from, shownSeqs: seqs }),
  ).toMatchObject({ ok: false, problem: { kind: 'moved' } });
  expect(valueOf(await service.answers['gauge-checks.last']({}))).toEqual([]);
});

it('a number taken after a check that failed says so, until a check holds', async () => {
  const { service, gauge, stretch } = await simulatedIndicator(['0.100', '0.100', '0.100', '0.100']);
  const told: string[] = [];
  service.hear('gauge-checked', (check) => told.push(check.gauge));
  const check = { gauge, by, zeroSeq: stretch.to, shownSeqs: [stretch.to, stretch.to, stretch.to] };
  const before = valueOf(await service.answers['measurements.keep-loose']({ stretch, settings }));
  expect(before.gauge).not.toHaveProperty('failedCheck');

  valueOf(await service.answers['gauge-checks.keep']({ ...check, known }));
  const failed = valueOf(await service.answers['measurements.keep-loose']({ stretch, settings }));
  expect(failed.gauge.failedCheck).toMatchObject({ off: -1, spread: 0, why: expect.stringContaining('scale') });

  await pause(2);
  valueOf(await service.answers['gauge-checks.keep']({ ...check, known: { value: 0.001, unit: 'mm' } }));
  expect(valueOf(await service.answers['gauge-checks.last']({}))).toHaveLength(1);
  const held = valueOf(await service.answers['measurements.keep-loose']({ stretch, settings }));
  expect(held.gauge).not.toHaveProperty('failedCheck');
  expect(told).toEqual([gauge, gauge]);
});
