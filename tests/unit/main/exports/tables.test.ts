import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvField, measurementsCsv } from '../../../../src/main/exports/csv.ts';
import { qifOf } from '../../../../src/main/exports/qif.ts';
import { temporaryFolder } from '../../../support/folder.ts';
import { issued } from '../../../support/records/issued.ts';
import { wholeNotebook } from '../../../support/records/wholeBuild.ts';

const entries = wholeNotebook({
  trials: 2,
  stations: 4,
  more: [{ kind: 'noted', topic: 'note', text: '=1+1' }],
});

/** Fields of one line, as RFC 4180 has them. */
function fieldsOf(line: string): readonly string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^",]*))/gu)].map(
    ([, quoted, plain]) => quoted?.replaceAll('""', '"') ?? plain ?? '',
  );
}

describe('the figures of a build as a table', () => {
  const lines = measurementsCsv({ notebook: { id: 'b1', entries } })
    .split('\r\n')
    .slice(0, -1);
  const [head = '', ...rows] = lines;
  const column = (name: string): number => fieldsOf(head).indexOf(name);

  it('names the unit of every column of figures, and has every station of every assembly', () => {
    expect(fieldsOf(head)).toContain('value[mm]');
    for (const row of rows) expect(fieldsOf(row), row).toHaveLength(fieldsOf(head).length);
    const final = rows.map(fieldsOf).filter((row) => row[0] === 'Final' && row[column('check')] === 'backlash');
    expect(final.map((row) => row[column('place')])).toEqual([
      'station 1',
      'station 2',
      'station 3',
      'station 4',
      'mean',
      'variation',
    ]);
    expect(Number(final[0]?.[column('value[mm]')])).toBeCloseTo(0.2246, 3);
    expect(final[0]?.[column('limit_max')]).toBe('0.25');
    expect(final[0]?.[column('standing')]).toBe('within');
    // How much it varies is held against its own limit.
    expect(final.at(-1)?.[column('limit_min')]).toBe('');
    expect(final.at(-1)?.[column('limit_max')]).toBe('0.05');
  });

  it('keeps what was taken again, and says so', () => {
    const again = rows.map(fieldsOf).filter((row) => row[column('standing')] === 'taken again');
    expect(again.map((row) => row[0])).toContain('Trial 2');
  });

  it('has torque in its own column', () => {
    const torque = rows.map(fieldsOf).find((row) => row[0] === 'Final' && row[column('place')] === 'running');
    expect(torque?.[column('value[N.m]')]).toBe('2.3');
    expect(torque?.[column('value[mm]')]).toBe('');
  });
});

describe('a field of a table', () => {
  it('is no formula, and comes back as it was but for the apostrophe that spreadsheets do not show', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (words) => {
        const [back = ''] = fieldsOf(csvField(words));
        expect(/^[-=+@\t\r]/u.test(back)).toBe(false);
        expect(back.replace(/^'(?=[-=+@\t\r])/u, '')).toBe(words);
      }),
      { seed: 20_261_130, numRuns: 300 },
    );
  });

  it('leaves numbers alone', () => {
    expect(csvField(-0.002)).toBe('-0.002');
  });
});

describe('results as QIF', () => {
  const xml = qifOf(issued(entries).data);

  it('has every number that was held against a limit, with its status', () => {
    const { judged } = issued(entries).data;
    const counted = judged.assemblies
      .flatMap(({ checks }) => checks.flatMap(({ limits }) => limits))
      .filter(
        ({ value, verdict, otherBasis }) =>
          typeof value === 'number' && verdict !== 'not-measured' && otherBasis !== true,
      );
    expect(xml.match(/<CharacteristicStatusEnum>/gu)).toHaveLength(counted.length);
    const outside = counted.filter(({ verdict }) => verdict === 'outside').length;
    expect(xml.match(/<CharacteristicStatusEnum>FAIL/gu)).toHaveLength(outside);
  });

  it('gives every part an id of its own, and refers only to ids that are there', () => {
    const ids = [...xml.matchAll(/ id="(\d+)"/gu)].map(([, id]) => Number(id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(Math.max(...ids)).toBe(Number(/idMax="(\d+)"/u.exec(xml)?.[1]));
    const named = [...xml.matchAll(/<Characteristic(?:Definition|Nominal|Item)Id>(\d+)</gu)].map(([, id]) =>
      Number(id),
    );
    for (const id of named) expect(ids).toContain(id);
  });

  it.skipIf(spawnSync('xmllint', ['--version']).error !== undefined)('keeps to our schema of the parts used', () => {
    const file = join(temporaryFolder(), 'r.qif');
    writeFileSync(file, xml);
    const schema = resolve(import.meta.dirname, '../../../../docs/schema/qif-parts.xsd');
    expect(() => execFileSync('xmllint', ['--noout', '--schema', schema, file], { stdio: 'pipe' })).not.toThrow();
    writeFileSync(file, xml.replace('<QPId>', '<QPIt>').replace('</QPId>', '</QPIt>'));
    expect(() => execFileSync('xmllint', ['--noout', '--schema', schema, file], { stdio: 'pipe' })).toThrow();
    expect(readFileSync(schema, 'utf8')).toContain('could not be had');
  });
});
