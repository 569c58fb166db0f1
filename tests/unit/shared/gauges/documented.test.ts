import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { parseLineFormat } from '../../../../src/shared/gauges/lineFormat.ts';
import { readLine } from '../../../../src/shared/gauges/readLine.ts';
import { latin1 } from '../../../support/writeLine.ts';

it('the line format shown in the documentation is taken, and reads a line such as it describes', () => {
  const page = fs.readFileSync(path.join(import.meta.dirname, '../../../../docs/gauges.md'), 'utf8');
  const shown = /```json\n(.*?)```/su.exec(page)?.[1] ?? '';
  const format = parseLineFormat(JSON.parse(shown));
  if (!format.ok) throw new Error(format.problem.sentence);
  const body = '00042;+00,237;I';
  const check = Array.from(body).reduce((before, character) => before ^ character.charCodeAt(0), 0);
  const line = `\u0002${body}${check.toString(16).toUpperCase().padStart(2, '0')}`;
  expect(readLine(format.value, latin1(line))).toMatchObject({ value: 0.237, unit: '[in_i]', decimals: 3 });
});
