import { expect, it } from 'vitest';
import { lineWriter } from '../../../../../hardware-sim/gauges/lineWriter.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { isUnreadable } from '../../../../../src/shared/gauges/gaugeReading.ts';
import { learnFormat } from '../../../../../src/shared/gauges/learn/learnFormat.ts';
import { readLine } from '../../../../../src/shared/gauges/readLine.ts';
import { anyShape, oneOf } from '../../../../support/anyShape.ts';
import { latin1 } from '../../../../support/writeLine.ts';

const gauges = 1500;
const learnedFrom = 50;
const readAfter = 10;

it(`of ${gauges} gauges, no two alike, those it is sure of are read exactly, and it is sure of most`, () => {
  const random = seeded(4);
  let sure = 0;
  for (let gauge = 0; gauge < gauges; gauge += 1) {
    const shape = anyShape(random);
    const writer = lineWriter(shape);
    const unit = oneOf(['mm', '[in_i]', 'N.m', '[lbf_av].[in_i]'], random);
    const resolution = oneOf([0.01, 0.001, 0.0005, 0.0001], random);
    const steps = oneOf([0.5, 2, 12], random) / resolution;
    const values = Array.from(
      { length: learnedFrom + readAfter },
      (_, i) => Number((Math.round(steps * Math.sin(i / 7)) * resolution).toFixed(4)) + 0,
    );
    const lines = values.map((value) =>
      Buffer.from(writer.write({ value, unit, resolution, overload: false })).toString('latin1'),
    );
    const learned = learnFormat(latin1(lines.slice(0, learnedFrom).join('')));
    if (!learned.sure) continue;
    sure += 1;
    for (let i = learnedFrom; i < lines.length; i += 1) {
      const line = (lines[i] ?? '').replace(/[\r\n]+$/u, '');
      const read = readLine(learned.format, latin1(line));
      // A number with an exponent may drop a nought and so change its build: refused is no wrong number.
      if (isUnreadable(read) && shape.number.form === 'NR3') continue;
      const got = isUnreadable(read) ? read.why : read.value;
      expect(got, `${JSON.stringify(line)} by ${JSON.stringify(learned.format)}`).toBeCloseTo(values[i] ?? 0, 9);
      if (!isUnreadable(read) && read.unit !== undefined)
        expect(read.unit, `${JSON.stringify(line)} by ${JSON.stringify(learned.format)}`).toBe(unit);
    }
  }
  expect(sure / gauges).toBeGreaterThan(0.75);
});
