import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { atField, readBy } from '../../../../src/renderer/parts/draft.ts';
import { fail, ok } from '../../../../src/shared/basics/result.ts';

const schema = z.strictObject({ name: z.string().min(1), teeth: z.int().min(3), note: z.string().optional() });
const sentences = { name: 'Give it a name.', teeth: 'Count its teeth.', note: 'Words, or nothing.' };

describe('a draft read through a schema', () => {
  it('gives the value where every field fits', () => {
    expect(readBy(schema, { name: 'Axle 7', teeth: 10 }, sentences)).toEqual(ok({ name: 'Axle 7', teeth: 10 }));
  });

  it('says at each wrong field its own sentence, and nothing at the others', () => {
    expect(readBy(schema, { name: '', teeth: 2, note: 'so' }, sentences)).toEqual({
      ok: false,
      errors: { name: 'Give it a name.', teeth: 'Count its teeth.' },
    });
  });
});

describe('a problem at a field', () => {
  it('says what to do about it as well', () => {
    const read = atField('gap', fail({ kind: 'no-unit', sentence: 'It has no unit.', remedy: 'Write mm after it.' }));
    expect(read).toEqual({ ok: false, errors: { gap: 'It has no unit. Write mm after it.' } });
  });

  it('leaves a value as it is', () => {
    expect(atField('gap', ok(3))).toEqual(ok(3));
  });
});
