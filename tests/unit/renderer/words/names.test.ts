import { expect, it } from 'vitest';
import { initialsOf } from '../../../../src/renderer/words/names.ts';

it.each([
  ['R. Lindqvist', 'RL'],
  ['Technician A', 'TA'],
  ['ada', 'A'],
  ['  Maria del  Carmen Ruiz ', 'MR'],
  ['Øystein Å', 'ØÅ'],
  ['', ''],
])('of "%s" are %s', (name, initials) => {
  expect(initialsOf(name)).toBe(initials);
});
