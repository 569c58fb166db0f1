import { expect, it } from 'vitest';
import { type LineShape, PLAIN_LINE } from '../../../../../hardware-sim/gauges/lineShape.ts';
import { lineWriter } from '../../../../../hardware-sim/gauges/lineWriter.ts';
import { type Random, seeded } from '../../../../../hardware-sim/seeded.ts';
import { isUnreadable } from '../../../../../src/shared/gauges/gaugeReading.ts';
import { learnFormat } from '../../../../../src/shared/gauges/learn/learnFormat.ts';
import { readLine } from '../../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../../support/writeLine.ts';

function oneOf<const T>(choices: readonly [T, ...T[]], random: Random): T {
  return choices[Math.floor(random.next() * choices.length)] ?? choices[0];
}

/** A gauge's line drawn from all the ways in which lines differ, its other fields written with the same decimal sign. */
function anyShape(random: Random): LineShape {
  const decimalSign = oneOf(['.', ','], random);
  const fill = oneOf([' ', '0'], random);
  const place = oneOf(['before', 'after', 'none'], random);
  // A line with one number and an N behind it is in newtons, whatever its maker meant.
  const state = place === 'none' ? 'S' : 'N';
  const room = decimalSign === ',' ? '23,5' : '23.5';
  return {
    ...PLAIN_LINE,
    number: {
      form: oneOf(['fixed', 'fixed', 'NR2', 'NR3'], random),
      decimalSign,
      plus: oneOf([true, false], random),
      leadingZero: oneOf([true, true, false], random),
      signGap: fill === '0' ? 0 : oneOf([0, 0, 1, 2], random),
      width: oneOf([0, 0, 9, 12], random),
      fill,
    },
    unit: {
      ...PLAIN_LINE.unit,
      place,
      gap: oneOf(['', ' ', '\t'], random),
    },
    label: oneOf(['', '', 'A: ', 'X=', 'CH1 ', 'ST,GS,'], random),
    fieldsBefore: oneOf<readonly string[]>([[], [], ['01'], ['01', room]], random),
    fieldsAfter: oneOf<readonly string[]>([[], [], [state], ['0', state], [room]], random),
    separator: oneOf([decimalSign === ',' ? ';' : ',', ';', ' ', '\t'], random),
    framed: oneOf([true, false, false], random),
    check: oneOf(['none', 'none', 'sum', 'xor'], random),
    counter: oneOf([true, false, false], random),
    end: oneOf(['\r\n', '\r', '\n'], random),
  };
}

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
