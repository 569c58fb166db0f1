import { z } from 'zod';
import { unitNamed } from '../basics/units.ts';

/** What a number is written with: a mark made of it would cut numbers in two, or take their sign away. */
const ofNumbers = /[\d+\-.eE]/u;
/** Gauges speak a byte a character; what does not fit in one is never sent. */
const inBytes = (text: string): boolean =>
  Array.from(text).every((character) => (character.codePointAt(0) ?? 0) <= 0xff);
const noPartOfNumber = (text: string): boolean => !ofNumbers.test(text);

/** Line ends, start marks and separators are short, and control characters are welcome in them: "\r\n", "\u0003". */
export const mark = z
  .string()
  .min(1)
  .max(4)
  .refine(inBytes, { error: 'has a character no gauge can send' })
  .refine(noPartOfNumber, { error: 'must not hold digits, signs, points or the letter E: numbers are made of them' });

/** What a line begins with. A sign or a decimal sign at its end would be the number's own. */
export const labelText = z
  .string()
  .min(1)
  .max(24)
  .refine(inBytes, { error: 'has a character no gauge can send' })
  .refine((text) => !/[+\-.,]$/u.test(text), { error: 'must not end in a sign or a decimal sign' });

/** A name of a value within a line: letters, digits and underscores, a letter first; blanks only where it stands in quotes. */
export const valueName = z
  .string()
  .max(24)
  .regex(/^[A-Za-z_][\w ]*$/u, { error: 'must be letters, digits and underscores, a letter first' });

const ucum = z.string().refine((code) => unitNamed(code)?.ucum === code, { error: 'is not the UCUM code of a unit' });
export const unitCode = ucum;

/** The gauge's own words for units where they are not the usual ones: {"M": "mm", "I": "[in_i]"}. */
export const unitWords = z.record(z.string().min(1).max(16), ucum).superRefine((words, context) => {
  for (const [word, code] of Object.entries(words)) {
    const usual = unitNamed(word)?.ucum;
    if (usual === undefined || usual === code) continue;
    context.addIssue({ code: 'custom', path: [word], message: `"${word}" means ${usual} and cannot mean ${code}` });
  }
});

/** A word for a state. One that is a number or a unit would hide what the line says. */
export const stateWord = z
  .string()
  .min(1)
  .max(24)
  .refine((word) => !/^[+\-.,]*\d/u.test(word) || !/^[\d+\-.,eE]+$/u.test(word), { error: 'is a number' })
  .refine((word) => unitNamed(word) === undefined || word.toUpperCase() === 'N', { error: 'is a unit' });
