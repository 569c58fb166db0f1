import { expect, it } from 'vitest';
import { z } from 'zod';
import { readJsonLines } from '../../../../src/main/cli/jsonLines.ts';

const schema = z.strictObject({ teeth: z.number() });

it('reads one object a line, or a single one laid out over several', () => {
  expect(readJsonLines('{"teeth":11}\n\n{"teeth":41}\n', schema)).toEqual({
    ok: true,
    value: [{ teeth: 11 }, { teeth: 41 }],
  });
  expect(readJsonLines('{\n  "teeth": 11\n}\n', schema)).toEqual({ ok: true, value: [{ teeth: 11 }] });
});

it('names the first bad line and its field', () => {
  expect(readJsonLines('{"teeth":11}\n{"teeth":"x"}', schema)).toMatchObject({
    ok: false,
    problem: { field: 'line 2, teeth' },
  });
  expect(readJsonLines('{\n"teeth": 11\n', schema)).toMatchObject({ ok: false, problem: { field: 'line 1' } });
});
