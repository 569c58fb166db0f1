import { describe, expect, it } from 'vitest';
import { figuresOfLesson, usualFigures } from '../../../../../src/shared/axle/experience/figures.ts';
import {
  backlashWords,
  filmWords,
  reliefWords,
  taughtWords,
  teachesWords,
} from '../../../../../src/shared/presentation/words/experience.ts';
import { fail, ok } from '../../../../../src/shared/basics/result.ts';
import { lesson, sharesAll, sharing } from '../../axle/experience/lessons.ts';
import { lessonAt } from '../../../../../src/shared/axle/experience/lesson.ts';

const said = (of: Parameters<typeof taughtWords>[0], shares = sharesAll) =>
  taughtWords(of, shares, { units: 'metric', rate: 0.94 });

describe('what earlier builds taught, in words', () => {
  it('tells the usual in the units of the bench', () => {
    expect(filmWords(usualFigures.film_um, 'metric')).toBe('0.008 mm, mostly 0.005 to 0.013');
    expect(filmWords(usualFigures.film_um, 'inch')).toBe('0.0003 in, mostly 0.0002 to 0.0005');
    expect(reliefWords(usualFigures.relief)).toBe('1.0 times the usual, mostly 0.6 to 1.7');
    expect(backlashWords(usualFigures.perRingAway, 0.94)).toBe('0.90 mm ±0.15');
  });

  it('tells a build by itself, only of what it has in common', () => {
    const thick = lesson(
      lessonAt.map(() => 1),
      0.1,
    );
    expect(figuresOfLesson(thick).film_um.middle).toBeGreaterThan(12);
    expect(said(ok(thick), sharing('hand'))).toBe('By itself: film about 0.012 mm');
    expect(said(ok(thick))).toMatch(
      /^By itself: film about 0\.012 mm, relief 2\.\d times the usual, 1\.05 mm ±0\.01 of backlash for each mm$/u,
    );
  });

  it('says why a build teaches nothing, and that one is still being worked out', () => {
    const sentence = 'The backlash window is not entered with both its ends.';
    expect(said(fail({ kind: 'no-window', sentence, remedy: 'Enter it.' }))).toBe(`${sentence} It teaches nothing.`);
    expect(said(undefined)).toBe('Being worked out.');
    expect(teachesWords(sharesAll)).toBe('counts for film, relief and backlash');
    expect(teachesWords(sharing('hand'))).toBe('counts for film');
  });
});
