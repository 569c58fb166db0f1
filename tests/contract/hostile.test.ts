import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { type Reached, transports } from '../support/bench/carriers.ts';
import { benchInNewFolder } from '../support/bench/open.ts';
import { specSheet } from '../support/records/scenario.ts';

const by = 'A. Tester';
const shim = (thickness: unknown) => ({ use: 'side', thickness, count: 1 });

describe.each(Object.entries(transports))('messages that no page of ours sends, over %s', (_name, reach) => {
  let service: BenchService;
  let reached: Reached;
  beforeAll(async () => {
    service = benchInNewFolder();
    reached = await reach(service);
  });
  afterAll(async () => {
    await reached.close();
    await service.close();
  });

  it.each([
    ['an unknown unit in the drawer', 'drawer.save', { drawer: { sizes: [shim({ value: 1, unit: 'furlong' })] } }],
    ['a unit of something else', 'drawer.save', { drawer: { sizes: [shim({ value: 1, unit: 'N.m' })] } }],
    ['a thickness that is no number', 'drawer.save', { drawer: { sizes: [shim({ value: 'x', unit: 'stone' })] } }],
    [
      'a limit whose ends have no known unit',
      'builds.write',
      {
        build: 'b',
        by,
        deed: {
          kind: 'limits-set',
          specSheet: {
            ...specSheet,
            limits: [
              {
                quantity: 'cap-torque',
                min: { value: 1, unit: 'stone' },
                max: { value: 2, unit: 'stone' },
                source: 'sheet',
              },
            ],
          },
        },
      },
    ],
    ['a quantity beyond all measure', 'drawer.save', { drawer: { sizes: [shim({ value: 1e300, unit: '[in_i]' })] } }],
    [
      'a gauge that reads less than nothing',
      'gauges.save',
      { gauge: { label: 'G', kind: 'indicator', resolution: { value: -0.01, unit: 'mm' } } },
    ],
    ['half a character', 'builds.start', { title: 'axle \ud800', technician: by }],
    ['a character that cannot be printed', 'builds.start', { title: 'axle \u0000', technician: by }],
  ] as const)('refuses %s, and goes on', async (_what, name, ask) => {
    const answer = await reached.client.ask(name, ask as never);
    expect(answer).toMatchObject({ ok: false, problem: { kind: 'refused' } });
    expect((await reached.client.ask('bench.about', {})).ok).toBe(true);
  });

  it('refuses a message of absurd size early, and in few words', async () => {
    const many = Object.fromEntries(Array.from({ length: 300_000 }, (_, n) => [`k${n}`, 0]));
    const next = reached.raw.next();
    reached.raw.send(JSON.stringify({ id: 900_001, ask: 'builds.list', with: many }));
    const { result } = JSON.parse(await next) as { result: { problem: { sentence: string } } };
    expect(result.problem.sentence.length).toBeLessThan(200);
    const some = Object.fromEntries(Array.from({ length: 3000 }, (_, n) => [`key${n}`, 0]));
    const refused = await reached.client.ask('builds.list', some);
    expect(refused).toMatchObject({ ok: false, problem: { kind: 'refused' } });
    if (!refused.ok) expect(refused.problem.sentence.length).toBeLessThan(200);
  });

  it.each([
    ['without what is asked', { id: 900_002, ask: 'builds.read' }],
    ['without a question', { id: 900_002, with: {} }],
    ['with a field too many', { id: 900_002, ask: 'builds.list', with: {}, more: 1 }],
    ['with a question that is no text', { id: 900_002, ask: 7, with: {} }],
  ])('answers a message %s', async (_what, message) => {
    const next = reached.raw.next();
    reached.raw.send(JSON.stringify(message));
    expect(JSON.parse(await next)).toMatchObject({ id: 900_002, result: { ok: false, problem: { kind: 'refused' } } });
  });
});
