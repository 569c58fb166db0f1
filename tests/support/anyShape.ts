import { type LineShape, PLAIN_LINE } from '../../hardware-sim/gauges/lineShape.ts';
import type { Random } from '../../hardware-sim/seeded.ts';

/** One of several, each as likely. */
export function oneOf<const T>(choices: readonly [T, ...T[]], random: Random): T {
  return choices[Math.floor(random.next() * choices.length)] ?? choices[0];
}

/** A gauge's line drawn from all the ways in which lines differ, its other fields written with the same decimal sign. */
export function anyShape(random: Random): LineShape {
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
