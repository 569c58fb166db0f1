import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assemblyName, latest } from '../../../../../src/shared/job/records/build.ts';
import {
  type Deed,
  deedSchema,
  type Entry,
  entrySchema,
  lastStanding,
  lastStrike,
  standing,
} from '../../../../../src/shared/job/records/notebook.ts';
import {
  backlash,
  buildOf,
  described,
  limitsSet,
  measured,
  notebook,
  trial,
} from '../../../../support/records/scenario.ts';

const note = (text: string): Deed => ({ kind: 'noted', topic: 'note', text });
const strike = (entry: string): Deed => ({ kind: 'struck', entry });

/** Writes a deed at the end, as the bench would. */
const write = (entries: readonly Entry[], deed: Deed): Entry[] => [
  ...entries,
  { id: `e${entries.length}`, version: 1, at: '2026-01-05T12:00:00.000Z', by: 'A. Tester', deed },
];
const texts = (entries: readonly Entry[]): string[] => buildOf(entries).notes.map(({ text }) => text);

function undo(entries: readonly Entry[]): Entry[] {
  const entry = lastStanding(entries);
  return entry === undefined ? [...entries] : write(entries, strike(entry.id));
}
function redo(entries: readonly Entry[]): Entry[] {
  const entry = lastStrike(entries);
  return entry === undefined ? [...entries] : write(entries, strike(entry.id));
}

describe('a build read from its notebook', () => {
  it('holds what was written, and numbers trials in their order', () => {
    const build = buildOf(notebook(described, limitsSet, trial, trial, note('cold shop')));
    expect(build.assemblies.map(assemblyName)).toEqual(['Trial 1', 'Trial 2']);
    expect(build.makeUp?.ringTeeth).toBe(45);
    expect(build.notes).toMatchObject([{ text: 'cold shop', by: 'A. Tester' }]);
  });

  it('lets the latest measurement of a check count and keeps the earlier ones', () => {
    const build = buildOf(
      notebook(
        described,
        trial,
        measured('e2', 'backlash', backlash([0.3])),
        measured('e2', 'backlash', backlash([0.2])),
      ),
    );
    const assembly = build.assemblies[0];
    expect(assembly?.measurements).toHaveLength(2);
    expect(assembly && latest(assembly, 'backlash')?.result).toMatchObject({ mean_mm: 0.2 });
  });

  it('loses nothing of an earlier trial when the axle comes apart again', () => {
    const build = buildOf(notebook(described, trial, measured('e2', 'backlash', backlash([0.3])), trial));
    expect(build.assemblies[0]?.measurements).toHaveLength(1);
    expect(build.assemblies[1]?.measurements).toHaveLength(0);
  });

  it('refuses a notebook that does not begin with its start', () => {
    expect(() => buildOf(notebook().slice(1))).toThrow(/begin/u);
  });
});

describe('undo and redo', () => {
  it('strikes the last entry and keeps it readable', () => {
    const entries = undo(notebook(note('one'), note('two')));
    expect(texts(entries)).toEqual(['one']);
    expect(entries.some(({ deed }) => deed.kind === 'noted' && deed.text === 'two')).toBe(true);
  });

  it('never strikes the start of the build', () => {
    expect(undo(undo(notebook(note('one'))))).toHaveLength(3);
  });

  it('has nothing to redo once something new was written', () => {
    expect(lastStrike(write(undo(notebook(note('one'))), note('new')))).toBeUndefined();
  });

  it('any run of undos is taken back by as many redos', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.string({ minLength: 1 }).filter((text) => text.trim() !== ''),
          { minLength: 1, maxLength: 8 },
        ),
        fc.nat(10),
        (notes, times) => {
          const before = notebook(...notes.map(note));
          const undone = Array.from({ length: times }).reduce<Entry[]>((entries) => undo(entries), before);
          expect(texts(undone)).toEqual(notes.slice(0, Math.max(0, notes.length - times)));
          const redone = Array.from({ length: times }).reduce<Entry[]>((entries) => redo(entries), undone);
          expect(texts(redone)).toEqual(notes);
          expect(standing(redone)).toEqual(before);
        },
      ),
    );
  });

  it('undo after redo takes back the same entry again', () => {
    expect(texts(undo(redo(undo(notebook(note('one'), note('two'))))))).toEqual(['one']);
  });
});

describe('what may be written', () => {
  it('accepts its own scenario entries', () => {
    for (const entry of notebook(described, limitsSet, trial, measured('e3', 'backlash', backlash([0.2, 'drift']))))
      expect(entrySchema.parse(entry)).toEqual(entry);
  });

  it.each([
    ['a limit without a unit', { quantity: 'ring-gear-runout', max: { value: 0.08 }, source: 'sheet' }, 'unit'],
    [
      'a torque unit on a length',
      { quantity: 'ring-gear-runout', max: { value: 0.08, unit: 'N.m' }, source: 'sheet' },
      'unit',
    ],
    [
      'a lower end above the upper',
      {
        quantity: 'ring-gear-runout',
        min: { value: 0.01, unit: '[in_i]' },
        max: { value: 0.2, unit: 'mm' },
        source: 'sheet',
      },
      'min',
    ],
    ['a limit without an end', { quantity: 'ring-gear-runout', source: 'sheet' }, 'max'],
    [
      'a limit without a source',
      { quantity: 'ring-gear-runout', max: { value: 0.08, unit: 'mm' }, source: ' ' },
      'source',
    ],
  ])('refuses %s and names the field', (_what, limit, field) => {
    const refused = deedSchema.safeParse({
      kind: 'limits-set',
      specSheet: { name: 'sheet', rule: 'simple', limits: [limit] },
    });
    expect(refused.success).toBe(false);
    expect(refused.error?.issues.map((issue) => issue.path.join('.')).join(' ')).toContain(`specSheet.limits.0`);
    expect(refused.error?.issues.map((issue) => issue.path.join('.')).join(' ')).toContain(field);
  });

  it('has no place for null or a bare NaN where a number is missing', () => {
    const result = { ...backlash([0.2]), mean_mm: null };
    expect(
      deedSchema.safeParse({ kind: 'measured', assembly: 'e1', check: 'backlash', how: { kind: 'seen' }, result })
        .success,
    ).toBe(false);
    expect(
      deedSchema.safeParse({
        kind: 'measured',
        assembly: 'e1',
        check: 'backlash',
        how: { kind: 'seen' },
        result: { ...result, mean_mm: NaN },
      }).success,
    ).toBe(false);
  });
});
