import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { lineWriter } from '../../../../hardware-sim/gauges/lineWriter.ts';
import { type Random, seeded } from '../../../../hardware-sim/seeded.ts';
import { arrivals, evenMoments } from '../../../../hardware-sim/worlds/moments.ts';
import { learnFormat } from '../../../../src/shared/gauges/learn/learnFormat.ts';
import { lineStream } from '../../../../src/shared/gauges/lineStream.ts';
import { lastOfRetimer, newRetimer, retime } from '../../../../src/shared/gauges/retiming.ts';
import { anyShape, oneOf } from '../../../support/anyShape.ts';
import { latin1 } from '../../../support/writeLine.ts';

/**
 * What is made of some hundred gauges and links, clean and spoilt, kept word for word. It says nothing about right or wrong,
 * for which other tests stand beside it: it says that something changed, so that no gauge that was read yesterday is
 * read otherwise tomorrow without somebody meaning it. Meant: `npm test -- gauges/keptAnswers -u`, and read what changed.
 */
const mark = (value: unknown): string => createHash('sha256').update(JSON.stringify(value)).digest('hex').slice(0, 12);

const manyLines = 60;
const kept = (name: string, lines: readonly string[]) =>
  expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`kept/${name}.txt`);

/** How the spindle may have gone while its lines were learnt. */
const courses: readonly ((i: number) => number)[] = [
  (i) => Math.sin(i / 7),
  (i) => i / manyLines,
  () => 0.4,
  (i) => (i < 40 ? 0.2 : 0.2 + (i - 40) / 30),
  (i) => Math.sin(i / 7) * (i % 2 === 0 ? 1 : 0.3),
];

function linesOf(random: Random, course: (i: number) => number): readonly string[] {
  const writer = lineWriter(anyShape(random));
  const unit = oneOf(['mm', '[in_i]', 'N.m', '[lbf_av].[in_i]'], random);
  const resolution = oneOf([0.01, 0.001, 0.0005], random);
  const steps = oneOf([2, 12], random) / resolution;
  return Array.from({ length: manyLines }, (_, i) => {
    const value = Number((Math.round(steps * course(i)) * resolution).toFixed(4)) + 0;
    return Buffer.from(writer.write({ value, unit, resolution, overload: false })).toString('latin1');
  });
}

/** A byte lost, doubled or another one, in every third line. */
const spoilt = (lines: readonly string[], random: Random): readonly string[] =>
  lines.map((line, i) => {
    if (i % 3 !== 0) return line;
    const at = Math.floor(random.next() * line.length);
    const instead = oneOf(['', (line[at] ?? '') + (line[at] ?? ''), '7', '-', ' '], random);
    return line.slice(0, at) + instead + line.slice(at + 1);
  });

it('learns the same from the lines of gauges of every kind, however their spindle was moved', async () => {
  const random = seeded(11);
  const learnt = Array.from({ length: 120 }, (_, gauge) => {
    const lines = linesOf(random, courses[gauge % courses.length] ?? Math.sin);
    const learned = { ...learnFormat(latin1(lines.join(''))), samples: undefined };
    return `${JSON.stringify(lines[1])}: ${learned.sure ? 'sure' : 'not sure'} ${learned.doubts.join()} ${learned.confidence.toFixed(3)} ${mark(learned)}`;
  });
  await kept('learnt', learnt);
});

it('reads the same from lines that arrive whole, in pieces and spoilt', async () => {
  const random = seeded(12);
  const streams = Array.from({ length: 80 }, () => {
    const lines = linesOf(random, Math.sin);
    const { format } = learnFormat(latin1(lines.join('')));
    const stream = lineStream(format, { ownUnit: 'mm', openedAt: 0 });
    const text = spoilt(lines, random).join('');
    const piece = 1 + Math.floor(random.next() * 30);
    const heard = Array.from({ length: Math.ceil(text.length / piece) }, (_, i) =>
      stream.push(latin1(text.slice(i * piece, (i + 1) * piece)), i * 0.013 + (i > 20 ? 0.7 : 0)),
    ).flat();
    const told = [...heard, ...stream.end(60)].map((line) => ('why' in line ? line.why : line.value));
    const values = told.filter((one) => typeof one === 'number').length;
    return `${JSON.stringify(lines[1])}: ${values} of ${told.length} ${mark(told)}`;
  });
  await kept('read', streams);
});

it('sets arrivals right in the same way', async () => {
  const random = seeded(13);
  const rows = [3, 8, 10, 30, 50, 100, 200].flatMap((rate) =>
    [0, 0.1, 0.5].map((to_s) => {
      const sent = evenMoments(rate, 20, random);
      const late = to_s === 0 ? sent : arrivals(sent, { every_s: 1.2, from_s: 0.02, to_s }, random);
      const jittered = late.map((t) => t + 0.2 * (random.next() / rate));
      const retimer = newRetimer<{ readonly t: number }>();
      const found = [...jittered.flatMap((t) => retime(retimer, { t })), ...lastOfRetimer(retimer)];
      const worst = Math.max(...found.map(({ t }, i) => Math.abs(t - (sent[i] ?? t))));
      return `${rate}/s, stalls to ${to_s} s: ${found.length} of ${sent.length}, worst ${worst.toFixed(4)} s ${mark(found.map(({ t }) => t.toFixed(9)))}`;
    }),
  );
  await kept('retimed', rows);
});
