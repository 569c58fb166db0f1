import { describe, expect, it } from 'vitest';
import { checkRows } from '../../../../../src/shared/presentation/certificate/checkTable.ts';
import {
  type CertificateContent,
  certificateContent,
} from '../../../../../src/shared/presentation/certificate/content.ts';
import { dayText, paperTimeText } from '../../../../../src/shared/presentation/words/days.ts';
import type { Block } from '../../../../../src/shared/presentation/certificate/page.ts';
import { certificateBlocks } from '../../../../../src/shared/presentation/certificate/telling.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import {
  asFound,
  backlash,
  described,
  limitsSet,
  measured,
  notebook,
  specSheet,
  trial,
} from '../../../../support/records/scenario.ts';
import { wholeNotebook } from '../../../../support/records/wholeBuild.ts';

const signed = { sha256: '0'.repeat(64), bench: 'Bench A', fingerprint: '0000 1111', revision: 1 };
const metric = { page: 'a4', units: 'metric', everything: true } as const;
const inch = { page: 'a4', units: 'inch', everything: true } as const;
const contentOf = (...deeds: readonly Deed[]): CertificateContent =>
  certificateContent({ id: 'b1', entries: notebook(...deeds) });
const wordsOf = (content: CertificateContent, look: typeof metric | typeof inch = metric): string =>
  JSON.stringify(certificateBlocks(content, look, signed));
const kinds = (blocks: readonly Block[]): readonly string[] => blocks.map(({ kind }) => kind);

/** An assembly in which nothing was overridden, and one reading is too close to call, or none. */
const closeIn = (assembly: CertificateContent['assemblies'][number], isClose: boolean) => ({
  ...assembly,
  checks: assembly.checks
    .filter(({ override }) => override === undefined)
    .map((check, index) => ({ ...check, closeCall: isClose && index === 0 })),
});

describe('days and times on a certificate', () => {
  it('are read as written, in whatever zone the reader sits', () => {
    expect(dayText('2026-01-05')).toBe('5 Jan 2026');
    expect(paperTimeText('2026-01-05T08:21:00.000Z')).toBe('5 Jan 2026, 08:21 UTC');
    expect(paperTimeText('2026-11-25T23:05:00-03:30')).toBe('25 Nov 2026, 23:05 UTC−03:30');
  });
});

describe('what a certificate tells', () => {
  it('says what was found in the words it was answered with', () => {
    const entries = notebook(
      described,
      limitsSet,
      asFound,
      measured('e3', 'case-tight', { kind: 'confirmed', yes: false }),
    );
    const found = certificateContent({ id: 'b1', entries });
    const row = found.assemblies.flatMap(({ checks }) => checks).find(({ check }) => check === 'case-tight');
    expect(row?.measurement).toBeDefined();
    const [[, result] = []] = row === undefined ? [] : checkRows(row, 'metric');
    expect(JSON.stringify(result)).toContain('it has play');
  });

  it.each([
    ['as-found', 'Every required reading was taken. Of the readings taken before, on parts since set up anew, one was'],
    ['final', 'Every required reading was taken: 1 too close to call.'],
  ])('counts what is close to call %s where it belongs', (phase, words) => {
    const whole = certificateContent({ id: 'b1', entries: wholeNotebook({ trials: 2, stations: 4 }) });
    const close = { ...whole, assemblies: whole.assemblies.map((one) => closeIn(one, one.phase === phase)) };
    expect(close.complete).toBe(true);
    const verdict = certificateBlocks(close, metric, signed).find(({ kind }) => kind === 'verdict');
    expect(verdict).toMatchObject({ under: expect.stringContaining(words) });
  });

  it('begins with title and verdict and goes through the assemblies in their order', () => {
    const content = certificateContent({ id: 'b1', entries: wholeNotebook({ trials: 2, stations: 4 }) });
    const blocks = certificateBlocks(content, metric, signed);
    expect(kinds(blocks).slice(0, 3)).toEqual(['title', 'verdict', 'heading']);
    const headings = blocks.flatMap((block) => (block.kind === 'heading' && block.level === 2 ? [block.words] : []));
    expect(headings).toEqual([
      'The final assembly',
      'What it rests on: final',
      'How it got there',
      'The axle',
      'Limits, and where they come from',
      'Shims by place',
      'As found',
      'As it comes apart',
      'Trial 1',
      'Trial 2',
      'Final',
    ]);
  });

  it('has something true to say of a build that has only begun', () => {
    const words = wordsOf(contentOf());
    expect(words).toContain('Nothing has been put together or measured yet.');
    expect(words).toContain('It has not been described.');
    expect(words).toContain('No limits have been entered.');
  });

  it('shows a limit as it was typed where the units of the certificate round it', () => {
    expect(wordsOf(contentOf(described, limitsSet), inch)).toContain('entered as 0.15 mm to 0.25 mm');
    expect(wordsOf(contentOf(described, limitsSet), metric)).not.toContain('entered as');
  });

  it('says under which rule it judged', () => {
    const guarded: Deed = { kind: 'limits-set', specSheet: { ...specSheet, rule: 'guarded' } };
    expect(wordsOf(contentOf(described, limitsSet))).toContain('The reading decides. Where');
    expect(wordsOf(contentOf(described, guarded))).toContain('The reading decides with its uncertainty.');
  });

  it('names the trial a runout on the first page comes from', () => {
    const words = wordsOf(certificateContent({ id: 'b1', entries: wholeNotebook({ trials: 2, stations: 4 }) }));
    expect(words).toContain('Ring gear runout · trial 2');
  });

  it('names the comeback, and says how many entries were struck through', () => {
    const content = contentOf(described, limitsSet, { kind: 'struck', entry: 'e2' });
    const comeback = { ...content, build: { ...content.build, comebackOf: 'b-old' } };
    expect(wordsOf(comeback)).toContain('Comeback of build b-old');
    expect(wordsOf(comeback)).toContain('One entry of the notebook was struck through');
  });

  it('gives backlash and its variation a row each, an override over the one that needed it', () => {
    const content = contentOf(
      described,
      limitsSet,
      trial,
      measured('e3', 'backlash', backlash([0.26, 0.25, 0.24, 0.25])),
      { kind: 'overridden', assembly: 'e3', check: 'backlash', reason: 'agreed' },
    );
    const check = content.assemblies[0]?.checks.find((one) => one.check === 'backlash');
    const rows = check === undefined ? [] : checkRows(check, 'metric');
    expect(rows.map(([name, , , standing]) => [name?.text, standing?.text, standing?.under])).toEqual([
      ['Backlash', 'overridden', 'outside'],
      ['Backlash variation', 'within', undefined],
    ]);
  });

  it('keeps a refused station in its table, with the reason', () => {
    const content = contentOf(
      described,
      limitsSet,
      asFound,
      measured('e3', 'backlash', backlash([0.2, 'drift', 0.2, 0.2])),
    );
    expect(wordsOf(content)).toContain('"text":"both rests drift","shape":"not-measured"');
  });
});
