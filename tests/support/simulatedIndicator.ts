import { onTestFinished } from 'vitest';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import type { Stretch } from '../../src/shared/job/records/measurement.ts';
import { benchInNewFolder, valueOf } from './bench/open.ts';
import { lineForTest, say, until } from './gaugesForTest.ts';

export interface HeardIndicator {
  readonly service: BenchService;
  readonly gauge: string;
  /** The rows of everything it sent. */
  readonly stretch: Stretch;
}

/** A bench of its own with an indicator on a real line that has sent these numbers, in millimetres. */
export async function simulatedIndicator(numbers: readonly string[]): Promise<HeardIndicator> {
  const line = await lineForTest();
  const service = benchInNewFolder();
  onTestFinished(async () => void (await service.close()));
  const rows: number[] = [];
  service.hear('heard', (news) => rows.push(...news.map(({ seq }) => seq)));
  const { id: gauge } = valueOf(
    await service.answers['gauges.save']({
      gauge: { label: 'Dial', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' }, link: line.link },
    }),
  );
  valueOf(await service.answers['gauges.plug-in']({ gauge }));
  for (const number of numbers) await say(line, `${number} mm\r\n`);
  await until(() => rows.length === numbers.length);
  return { service, gauge, stretch: { gauge, from: rows[0] ?? 0, to: rows.at(-1) ?? 0 } };
}
