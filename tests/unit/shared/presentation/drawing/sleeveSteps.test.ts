import { describe, expect, it } from 'vitest';
import type { Element } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { type SleeveInput, sleeveScene } from '../../../../../src/shared/presentation/drawing/sleeveSteps.ts';

const size = { width: 400, height: 300, text: 15 };
const band = { min: 1.5, max: 2.5 };
const input = (running: readonly number[], more: Partial<SleeveInput> = {}): SleeveInput => ({
  steps: running.map((torque) => ({ running: torque, u: 0.05 })),
  before: 0,
  band,
  system: 'metric',
  size,
  ...more,
});

const wordsIn = (elements: readonly Element[]): readonly string[] =>
  elements.flatMap((element) => (element.kind === 'text' ? [element.text] : []));
const discs = (elements: readonly Element[]) => elements.flatMap((one) => (one.kind === 'circle' ? [one] : []));

describe('the steps of the nut', () => {
  it('climb from left to right and upwards with the torque', () => {
    const dots = discs(sleeveScene(input([0.4, 0.7, 1.2])).elements);
    expect(dots).toHaveLength(3);
    expect(dots.map(({ x }) => x)).toEqual(dots.map(({ x }) => x).toSorted((a, b) => a - b));
    expect(dots.map(({ y }) => y)).toEqual(dots.map(({ y }) => y).toSorted((a, b) => b - a));
  });

  it('stand still while the picture fills', () => {
    const first = discs(sleeveScene(input([0.4])).elements)[0];
    expect(discs(sleeveScene(input([0.4, 0.7])).elements)[0]?.x).toBe(first?.x);
  });

  it('keep their numbers when the first have left the picture', () => {
    const words = wordsIn(sleeveScene(input([0.4, 0.7, 1.2, 1.3, 1.4], { before: 3 })).elements);
    expect(words.filter((word) => /^\d$/u.test(word))).toEqual(['4', '5', '6', '7', '8']);
  });

  it('show the next hollow, where it is expected, and say it', () => {
    const scene = sleeveScene(input([0.4, 0.7], { next: { running: 1.2, u: 0.1 } }));
    expect(discs(scene.elements).at(-1)).toMatchObject({ fill: 'surface', stroke: 'quiet' });
    expect(wordsIn(scene.elements)).toContain('next');
    expect(scene.description).toContain('One more like the last is expected at 1.20 N·m.');
  });

  it('dash only the way to the next', () => {
    const dashes = (more: Partial<SleeveInput>) =>
      sleeveScene(input([0.4, 0.7, 0.9], more)).elements.filter((one) => one.kind === 'path' && one.dash !== undefined);
    expect(dashes({})).toHaveLength(0);
    expect(dashes({ next: { running: 1.2, u: 0.1 } })).toHaveLength(2);
  });

  it('know within and above by shape, and below as neither', () => {
    const inkOf = (torque: number) =>
      /"(within|outside)"/u.exec(JSON.stringify(sleeveScene(input([torque])).elements))?.[1];
    expect([inkOf(1), inkOf(2), inkOf(3)]).toEqual([undefined, 'within', 'outside']);
  });

  it('stay inside the picture, whatever was read', () => {
    for (const running of [[0.01], [5], [0.4, 9]]) {
      for (const one of discs(sleeveScene(input(running)).elements)) {
        expect(one.x).toBeGreaterThan(0);
        expect(one.x).toBeLessThan(size.width);
        expect(one.y).toBeGreaterThan(0);
        expect(one.y).toBeLessThan(size.height);
      }
    }
  });

  it('have something to say before the first step', () => {
    expect(sleeveScene(input([])).description).toMatch(/^No step yet\. Window 1\.50/u);
  });
});
