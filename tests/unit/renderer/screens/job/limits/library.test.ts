import { describe, expect, it } from 'vitest';
import { sheetsFound, sheetWords } from '../../../../../../src/renderer/screens/job/limits/library.ts';
import type { SpecSheet } from '../../../../../../src/shared/job/records/specSheet.ts';

const sheet = (name: string, ...sources: readonly string[]): SpecSheet => ({
  name,
  rule: 'simple',
  limits: sources.map((source) => ({ quantity: 'ring-gear-runout', max: { value: 0.05, unit: 'mm' }, source })),
});
const light = sheet('13/45, 205 mm', 'Workshop manual, page 12', 'Workshop manual, page 12', 'Etched');
const heavy = sheet('Rear, heavy', 'Workshop manual, page 40');
const shelf = [light, heavy, sheet('Bare')];

describe('the shop’s spec sheets', () => {
  it('are found by every word that was typed, in name, source or note, in any order and case', () => {
    expect(sheetsFound(shelf, 'MANUAL 205')).toEqual([light]);
    expect(sheetsFound(shelf, 'heavy rear')).toEqual([heavy]);
    expect(sheetsFound([{ ...heavy, note: 'with the wide ring' }], 'ring rear')).toHaveLength(1);
    expect(sheetsFound(shelf, '205 heavy')).toEqual([]);
    expect(sheetsFound(shelf, '  ')).toEqual(shelf);
  });

  it('say how many limits they hold, and each source once', () => {
    expect(sheetWords(light)).toBe('3 limits, from Workshop manual, page 12; Etched.');
    expect(sheetWords(heavy)).toBe('One limit, from Workshop manual, page 40.');
    expect(sheetWords(sheet('Bare'))).toBe('No limits.');
    expect(sheetWords(sheet('Many', 'a', 'b', 'c', 'd'))).toBe('4 limits, from a; b and 2 more.');
  });
});
