import type { BenchClient, QuestionName } from '../../src/shared/contract/contract.ts';
import type { MessageOptions } from '../support/messages.ts';

const reading: ReadonlySet<QuestionName> = new Set([
  'gauges.heard',
  'gauges.press',
  'gauge-checks.keep',
  'gauge-checks.list',
  'measurements.record',
  'measurements.keep-loose',
]);

/** Ids the bench knows, so that messages get further than the first door; the fuzz has a build of its own to write in. */
export async function knownTo(
  random: () => number,
  client: BenchClient,
  gauges: readonly string[],
): Promise<MessageOptions['known']> {
  const started = await client.ask('builds.start', { title: 'For the fuzz', technician: 'Soak' });
  const build = started.ok ? started.value.id : '';
  const assembly = { phase: 'trial', bearings: 'set-up', seal: 'out', sleeve: false } as const;
  const written = await client.ask('builds.write', { build, by: 'Soak', deed: { kind: 'assembled', assembly } });
  const entry = written.ok ? (written.value.entries.at(-1)?.id ?? '') : '';
  return (field, question) => {
    if (random() < 0.2) return undefined;
    // The gauges of the stand are listened to and measured with; what would change them is for no fuzz.
    if (field === 'gauge' && reading.has(question)) return gauges[Math.floor(random() * gauges.length)];
    return { build, assembly: entry, entry }[field];
  };
}
