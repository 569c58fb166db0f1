import fc from 'fast-check';
import PDFDocument from 'pdfkit';
import { describe, expect, it } from 'vitest';
import { fontFiles, fontName, scale } from '../../../../src/main/certificate/letters.ts';
import { Paper } from '../../../../src/main/certificate/paper.ts';

function blankPaper(): Paper {
  const pdf = new PDFDocument({ autoFirstPage: false, font: '', tagged: true, pdfVersion: '1.7' });
  for (const weight of [400, 500, 600, 700] as const) pdf.registerFont(fontName(weight), fontFiles[weight]);
  const root = pdf.struct('Document');
  pdf.addStructure(root);
  return new Paper(pdf, 'a4', root);
}

describe('lines on the paper', () => {
  const paper = blankPaper();

  it('are never wider than their room and lose no letter, however long the words', () => {
    const word = fc.stringMatching(/^[A-Za-z0-9.,–·]{1,60}$/u);
    fc.assert(
      fc.property(
        fc.array(word, { minLength: 1, maxLength: 30 }),
        fc.integer({ min: 40, max: 400 }),
        (words, width) => {
          const lines = paper.wrap(words.join(' '), scale.body, width);
          for (const line of lines) expect(paper.measure(line, scale.body)).toBeLessThanOrEqual(width + 1e-6);
          expect(lines.join('').replaceAll(/[\s\u00a0]/gu, '')).toBe(words.join(''));
        },
      ),
      { numRuns: 60, seed: 20_260_107 },
    );
  });

  it('keep a number and its unit together', () => {
    const narrow = paper.measure('0.150 mm to 0.250', scale.cell) + 1;
    expect(
      paper.wrap('0.150 mm to 0.250 mm', scale.cell, narrow).map((line) => line.replaceAll('\u00a0', ' ')),
    ).toEqual(['0.150 mm to', '0.250 mm']);
  });

  it('give every digit of a figure one width', () => {
    expect(paper.measure('0.111', scale.cell)).toBeCloseTo(paper.measure('0.888', scale.cell), 6);
  });

  it('keep paragraphs apart', () => {
    expect(paper.wrap('one\ntwo', scale.body, 400)).toEqual(['one', 'two']);
  });
});
