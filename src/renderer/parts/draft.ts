import type { z } from 'zod';
import { ok, type Result } from '../../shared/basics/result.ts';

/** A sentence for every field of a draft that is wrong or not there yet. */
export type FieldErrors<Field extends string = string> = { readonly [Name in Field]?: string };

/** What a draft comes to: the value it stands for, or what is wrong in its fields. */
export type DraftRead<Value, Errors extends object> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly errors: Errors };

export const wrong = <Errors extends object>(errors: Errors): { readonly ok: false; readonly errors: Errors } => ({
  ok: false,
  errors,
});

/**
 * Reads fields through a schema. What the schema refuses is said at its field, in the sentence given for that field:
 * the schema's own words are for files, not for people.
 */
export function readBy<Value, Field extends string>(
  schema: z.ZodType<Value>,
  fields: unknown,
  sentences: Readonly<Record<Field, string>>,
): DraftRead<Value, FieldErrors<Field>> {
  const read = schema.safeParse(fields);
  if (read.success) return ok(read.data);
  const names = new Set(read.error.issues.map((issue) => String(issue.path[0])));
  const known = Object.entries<string>(sentences).filter(([field]) => names.has(field));
  return wrong(Object.fromEntries(known) as FieldErrors<Field>);
}

/** A problem as what is wrong at one field, with what to do about it where that says more. */
export function atField<Value, Field extends string>(
  field: Field,
  read: Result<Value>,
): DraftRead<Value, FieldErrors<Field>> {
  if (read.ok) return read;
  const { sentence, remedy } = read.problem;
  return wrong({ [field]: `${sentence} ${remedy}` } as FieldErrors<Field>);
}
