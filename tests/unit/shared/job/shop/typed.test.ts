import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closedUp, folded, soughtWords } from '../../../../../src/shared/job/shop/folded.ts';
import { wordsTyped } from '../../../../../src/shared/job/shop/typed.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { limitsSet } from '../../../../support/records/scenario.ts';
import { notebookOf, twoTrials } from '../../../../support/records/finished.ts';

const typed = (...deeds: readonly Deed[]): string => wordsTyped('b1', notebookOf('b1', {}, ...deeds).entries);
const note = (text: string): Deed => ({ kind: 'noted', topic: 'note', text });

describe('words typed into a build', () => {
  it('are found whatever their case, marks and gaps', () => {
    const words = typed(note('Müller, plate AB-12 CD'), { kind: 'noted', topic: 'plate', text: 'XY 987-Z' });
    expect(words).toContain('muller');
    expect(words).toContain('ab-12 cd');
    expect(words).toContain('xy987z');
  });

  it.each<[string, Deed, string]>([
    ['another title', { kind: 'renamed', title: 'Quokka' }, 'quokka'],
    ['the source of a limit', limitsSet, 'shop sheet for the invented axle'],
    ['why limits change', { ...limitsSet, change: { why: 'Wombat', holds: 'from-now-on' } } as Deed, 'wombat'],
    [
      'why something is let stand',
      { kind: 'overridden', assembly: 'e1', check: 'mark', reason: 'Numbat said so' },
      'numbat',
    ],
    [
      'an oil',
      {
        kind: 'measured',
        assembly: 'e1',
        check: 'oil',
        how: { kind: 'seen' },
        result: { kind: 'confirmed', yes: true, oil: { name: 'Bilby 90' } },
      },
      'bilby90',
    ],
    [
      'a tool',
      {
        kind: 'measured',
        assembly: 'e1',
        check: 'backlash',
        how: { kind: 'typed', tool: 'Dial of Ena', resolution: { value: 0.01, unit: 'mm' } },
        result: { kind: 'set-numbers', pinion: '4711', ringGear: '4712' },
      },
      'dial of ena',
    ],
    ['the hash on a certificate', { kind: 'certified', sha256: 'ab'.repeat(32), complete: true }, 'abababab'],
  ])('hold %s', (_what, deed, word) => {
    expect(typed(deed)).toContain(word);
  });

  it('hold the name, the teeth and the maker of an axle', () => {
    const words = typed(...twoTrials({ makeUp: { axleName: 'Långed', gearMaker: 'Own make' } }));
    for (const word of ['langed', 'own make', '13/45']) expect(words).toContain(word);
  });

  it('do not hold what was struck through', () => {
    const { entries } = notebookOf('b1', {}, note('Zebra'), { kind: 'struck', entry: 'e1' });
    expect(wordsTyped('b1', entries)).not.toContain('zebra');
  });

  it('are found by any of their own words, in any order (property)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }), { minLength: 1, maxLength: 5 }),
        (parts) => {
          const words = typed(note(parts.join(' ')));
          for (const word of soughtWords(parts.toReversed().join(' '))) expect(words).toContain(word);
        },
      ),
    );
  });

  it('fold twice to the same (property)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(folded(folded(text))).toBe(folded(text));
        expect(closedUp(folded(text))).toBe(closedUp(text));
      }),
    );
  });
});
