import { z } from 'zod';
import { type QuestionName, questions } from '../../src/shared/contract/contract.ts';

/** What of a JSON Schema the contract's questions use. */
interface Shape {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Shape[];
  readonly oneOf?: readonly Shape[];
  readonly allOf?: readonly Shape[];
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape;
  readonly prefixItems?: readonly Shape[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly format?: string;
  readonly pattern?: string;
}

export interface MessageMaker {
  /** One message to the bench as text: about half of them well formed, the rest spoilt in one place or wholly. */
  next(id: number): string;
}

export interface MessageOptions {
  readonly random: () => number;
  /** Questions that are asked; all of them without it. */
  readonly names?: readonly QuestionName[];
  /** Values that are known to the bench, by the name of their field: without them no message gets past the first door. */
  readonly known: (field: string, question: QuestionName) => string | undefined;
}

/** Units, words and ids that mean something, and things that mean harm. */
const units = ['mm', '[in_i]', 'N.m', '[lbf_av].[in_i]', 'N', 'furlong', ''];
const hostile: readonly unknown[] = [
  null,
  true,
  '',
  ' ',
  '\u0000',
  '\ud800',
  '\u202e',
  '__proto__',
  'constructor',
  '../../../etc/passwd',
  '\\\\host\\share',
  "'; DROP TABLE journal; --",
  '<script>alert(1)</script>',
  '%00',
  0,
  -0,
  -1,
  1.5,
  1e308,
  -1e308,
  5e-324,
  2 ** 53,
  [],
  {},
  [[[[[[[[]]]]]]]],
  { none: '' },
  { none: 'because' },
  { __proto__: { ok: true } },
  'x'.repeat(5000),
  'furlong',
];

/** Makes messages out of the contract's own schemas, so that a question added tomorrow is tried tomorrow. */
export function messageMaker({ random, names, known }: MessageOptions): MessageMaker {
  const shapes = (names ?? (Object.keys(questions) as QuestionName[])).map(
    (name) => [name, z.toJSONSchema(questions[name].ask, { io: 'input', unrepresentable: 'any' }) as Shape] as const,
  );
  const pick = <T>(from: readonly T[]): T | undefined => from[Math.floor(random() * from.length)];
  return {
    next(id) {
      const [name, shape] = pick(shapes) ?? (['bench.about', {}] as const);
      const making = { random, pick, known: (field: string) => known(field, name) };
      const message: Record<string, unknown> = { id, ask: name, with: valueFor(making, shape, '') };
      const how = random();
      if (how < 0.4) message['with'] = spoilt(message['with'], random, pick);
      else if (how < 0.43) message['ask'] = pick(hostile);
      else if (how < 0.46) message[pick(['more', 'id', 'with']) ?? 'more'] = pick(hostile);
      const text = JSON.stringify(message);
      return how > 0.985 ? text.slice(0, Math.floor(random() * text.length)) : text;
    },
  };
}

interface Making {
  readonly random: () => number;
  readonly known: (field: string) => string | undefined;
  readonly pick: <T>(from: readonly T[]) => T | undefined;
}

function valueFor(making: Making, shape: Shape, field: string): unknown {
  const { random, known, pick } = making;
  if (shape.const !== undefined) return shape.const;
  if (shape.enum !== undefined) return pick(shape.enum);
  const ways = shape.anyOf ?? shape.oneOf;
  if (ways !== undefined) return valueFor(making, pick(ways) ?? {}, field);
  if (shape.allOf !== undefined) return valueFor(making, Object.assign({}, ...shape.allOf) as Shape, field);
  if (shape.type === 'object') return objectFor(making, shape);
  if (shape.type === 'array') return arrayFor(making, shape, field);
  if (shape.type === 'boolean') return random() < 0.5;
  if (shape.type === 'number' || shape.type === 'integer') return numberFor(making, shape, field);
  if (shape.type === 'string') return known(field) ?? stringFor(making, shape, field);
  return pick(hostile);
}

function objectFor(making: Making, { properties = {}, required = [] }: Shape): Record<string, unknown> {
  const there = Object.entries(properties).filter(([name]) => required.includes(name) || making.random() < 0.4);
  return Object.fromEntries(there.map(([name, inner]) => [name, valueFor(making, inner, name)]));
}

function arrayFor(making: Making, { prefixItems, items, minItems = 0, maxItems = 4 }: Shape, field: string): unknown[] {
  if (prefixItems !== undefined) return prefixItems.map((inner) => valueFor(making, inner, field));
  const count = minItems + Math.floor(making.random() * Math.min(4, maxItems - minItems + 1));
  return Array.from({ length: count }, () => valueFor(making, items ?? {}, field));
}

function numberFor({ random, known }: Making, shape: Shape, field: string): number {
  const row = Number(known(field));
  if (known(field) !== undefined && Number.isFinite(row)) return row;
  const least = Math.max(-1000, shape.minimum ?? shape.exclusiveMinimum ?? -1000);
  const most = Math.min(1000, shape.maximum ?? 1000);
  const value = least + random() * (most - least);
  return shape.type === 'integer' ? Math.round(value) : value;
}

const letters = 'abcdefghijklmnopqrstuvwxyzäßø–’ 0123456789.,:;/%&=\n\t"\\';

function stringFor({ random, pick }: Making, shape: Shape, field: string): string {
  if (field === 'unit') return pick(units) ?? '';
  if (shape.format === 'date') return '2026-05-31';
  if (shape.format === 'date-time') return '2026-05-31T12:00:00Z';
  if (shape.pattern?.includes('0-9a-f') === true) return 'ab'.repeat(32);
  const longest = Math.min(shape.maxLength ?? 60, 60);
  const count = Math.max(shape.minLength ?? 0, Math.floor(random() * longest));
  return Array.from({ length: count }, () => letters[Math.floor(random() * letters.length)] ?? '').join('');
}

/** The same value with one place of it, somewhere, put to something else, left out, or given company. */
function spoilt(value: unknown, random: () => number, pick: Making['pick']): unknown {
  if (typeof value !== 'object' || value === null || random() < 0.25) return pick(hostile);
  if (Array.isArray(value)) {
    const at = Math.floor(random() * value.length);
    return value.length === 0 ? [pick(hostile)] : value.with(at, spoilt(value[at], random, pick));
  }
  const fields = Object.entries(value);
  const chosen = pick(fields)?.[0];
  if (chosen === undefined) return { [String(pick(hostile))]: pick(hostile) };
  if (random() < 0.15) return Object.fromEntries(fields.filter(([name]) => name !== chosen));
  return Object.fromEntries(fields.map(([name, one]) => [name, name === chosen ? spoilt(one, random, pick) : one]));
}
