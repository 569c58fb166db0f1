import { z } from 'zod';
import { fail, ok, type Result } from '../basics/result.ts';
import { labelText, mark, stateWord, unitCode, unitWords, valueName } from './lineMarks.ts';

/** A part of the line: by columns counted from 1, both included, or by the n-th field. " " separates by any run of blanks. */
const columns = z
  .strictObject({ at: z.literal('columns'), from: z.int().min(1).max(256), to: z.int().min(1).max(256) })
  .refine((place) => place.to >= place.from, { path: ['to'], error: 'must not lie before "from"' });
const field = z.strictObject({
  at: z.literal('field'),
  separator: mark,
  field: z.int().min(1).max(64),
});
const free = z.strictObject({ at: z.literal('free') });
/** The number after this name and `=` or `:`, wherever it stands. */
const named = z.strictObject({ at: z.literal('named'), name: valueName });

const unit = z.discriminatedUnion('is', [
  /** Every line is in this unit. */
  z.strictObject({ is: z.literal('fixed'), ucum: unitCode }),
  /** Beside the number, before or after it (number at "free"). Where a line has none, the gauge's own unit holds. */
  z.strictObject({ is: z.literal('beside'), words: unitWords.optional() }),
  /** At a place of its own. */
  z.strictObject({
    is: z.literal('placed'),
    place: z.discriminatedUnion('at', [columns, field]),
    words: unitWords.optional(),
  }),
  /** Not in the line: the unit set for the gauge holds. One that stands there all the same is believed. */
  z.strictObject({ is: z.literal('not-sent') }),
]);

const words = z.array(stateWord).max(32);

/** Check characters at the end of the line, two hexadecimal digits over all characters before them. */
const checksum = z.discriminatedUnion('is', [
  z.strictObject({ is: z.literal('none') }),
  z.strictObject({ is: z.literal('xor-hex') }),
  z.strictObject({ is: z.literal('sum-hex') }),
]);

const fields = z.strictObject({
  kind: z.literal('axlewright-line-format'),
  version: z.literal(1),
  /** For people. */
  name: z.string().max(80).default(''),
  /** Where a line ends: 'any' takes CR, LF and CRLF. */
  lineEnd: z.union([z.literal('any'), mark]).default('any'),
  /** A mark every line begins with, such as "\u0002". What stands before it is dropped. */
  start: mark.optional(),
  /** Text every line of this gauge begins with; other lines belong to another axis and are left alone. */
  label: labelText.optional(),
  number: z.discriminatedUnion('at', [free, columns, field, named]).default({ at: 'free' }),
  decimal: z.enum(['.', ',', 'either']).default('either'),
  /** The line carries digits only and the last so many are decimals: "000237" with 3 is 0.237. */
  impliedDecimals: z.int().min(0).max(9).optional(),
  sign: z.enum(['leading', 'trailing']).default('leading'),
  /** The gauge counts the other way round from what we want. */
  turnSign: z.boolean().default(false),
  unit: unit.default({ is: 'beside' }),
  /** Words that stand for a state. A line with an overload or error word is no reading. */
  words: z
    .strictObject({ overload: words.default([]), error: words.default([]), lowBattery: words.default([]) })
    .optional(),
  checksum: checksum.default({ is: 'none' }),
  /** Exactly so many characters between start mark and line end; anything else has lost or gained bytes. */
  length: z.int().min(1).max(256).optional(),
  /** Exactly so many decimals. */
  decimals: z.int().min(0).max(12).optional(),
});

/**
 * How a gauge's bytes become readings: a small file that can be kept and shared. Everything but `kind` and
 * `version` may be left out; what is left out is as in the automatic format.
 */
export const lineFormatSchema = fields.superRefine(({ decimal, lineEnd, number }, context) => {
  const wrong = (path: string[], message: string): void => context.addIssue({ code: 'custom', path, message });
  const isComma = (text: string): boolean => text.includes(',');
  if (decimal !== '.' && isComma(lineEnd)) wrong(['lineEnd'], 'must not be a comma unless "decimal" is a point');
  if (decimal === ',' && number.at === 'field' && isComma(number.separator))
    wrong(['number', 'separator'], 'must not be a comma where the decimal sign is one');
});

export type LineFormat = z.infer<typeof lineFormatSchema>;
export type Place = z.infer<typeof columns> | z.infer<typeof field>;
/** A number that has a place or a name. */
export type NumberPlace = Place | z.infer<typeof named>;

/** One number a line with a unit or none, ended by CR, LF or both: what most gauges send. */
export const automatic: LineFormat = lineFormatSchema.parse({
  kind: 'axlewright-line-format',
  version: 1,
  name: 'automatic',
});

/** Checks a line format from a file, or takes the word `auto`. The problem names the wrong field. */
export function parseLineFormat(input: unknown): Result<LineFormat, 'wrong-format'> {
  if (input === 'auto') return ok(automatic);
  const checked = lineFormatSchema.safeParse(input);
  if (checked.success) return ok(checked.data);
  const issue = checked.error.issues[0];
  const unknown = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const field = [...(issue?.path ?? []), ...unknown].join('.');
  return fail({
    kind: 'wrong-format',
    field: field === '' ? 'format' : field,
    sentence: `The line format is not right at "${field === '' ? 'format' : field}": ${issue?.message ?? 'unknown'}.`,
    remedy: 'Correct that field, or use the automatic format.',
  });
}
