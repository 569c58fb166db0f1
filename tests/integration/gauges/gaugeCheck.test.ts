import { expect, it, onTestFinished } from 'vitest';
import type { Heard } from '../../../src/shared/gauges/heard.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { lineForTest, say, until } from '../../support/gaugesForTest.ts';

it('keeps a check of a gauge with what the journal says it showed, over a restart', async () => {
  const line = await lineForTest();
  const folder = newFolder();
  const bench = benchInNewFolder(undefined, folder);
  const heard: Heard[] = [];
  bench.hear('heard', (news) => heard.push(...news));
  const gauge = {
    label: 'Indicator',
    kind: 'indicator',
    resolution: { value: 0.001, unit: 'mm' },
    link: line.link,
  } as const;
  const { id } = valueOf(await bench.answers['gauges.save']({ gauge }));
  valueOf(await bench.answers['gauges.plug-in']({ gauge: id }));
  for (const text of ['0.000', '0.500', '0.501', '0.499', '0.500']) await say(line, `${text} mm\r\n`);
  await until(() => heard.length === 5);
  const seqs = heard.map(({ seq }) => seq);
  const told = { gauge: id, by: 'A. Tester', known: { value: 0.5, unit: 'mm' }, zeroSeq: seqs[0] ?? 0 };
  const kept = valueOf(await bench.answers['gauge-checks.keep']({ ...told, shownSeqs: seqs.slice(1, 4) }));
  expect(kept).toMatchObject({ zero: 0, shown: [0.5, 0.501, 0.499] });
  const wrong = await bench.answers['gauge-checks.keep']({ ...told, shownSeqs: [90_001, 90_002, 90_003] });
  expect(wrong).toMatchObject({ ok: false, problem: { kind: 'not-on-disk' } });
  await bench.close();
  const again = benchInNewFolder(undefined, folder);
  onTestFinished(async () => void (await again.close()));
  expect(valueOf(await again.answers['gauge-checks.list']({ gauge: id }))).toEqual([kept]);
});
