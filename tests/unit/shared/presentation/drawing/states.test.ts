import { describe, expect, it } from 'vitest';
import type { Element } from '../../../../../src/shared/presentation/drawing/scene.ts';
import { type State, stateInk, stateMark, stateWords } from '../../../../../src/shared/presentation/drawing/states.ts';
import { palettes } from '../../../../../src/shared/presentation/drawing/inks.ts';
import { placesOf } from '../../../../support/drawings/look.ts';

const states = Object.keys(stateWords) as State[];
const at = { x: 50, y: 50 };

/** What is left of a mark when its colour is taken away. */
const shapeOf = (elements: readonly Element[]): string =>
  JSON.stringify(elements, (key, value: unknown) => (key === 'fill' || key === 'stroke' ? 'ink' : value));

describe('state marks', () => {
  it('have shapes that differ without any colour', () => {
    const shapes = states.map((state) => shapeOf(stateMark(state, at, 20)));
    expect(new Set(shapes).size).toBe(states.length);
  });

  it.each(states)('%s has an ink and a word, and stays near its size', (state) => {
    expect(palettes.light[stateInk(state)]).toMatch(/^#/u);
    expect(stateWords[state]).not.toBe('');
    const elements = stateMark(state, at, 20);
    const scene = { width: 100, height: 100, title: '', description: '', elements };
    for (const { x, y } of placesOf(scene)) {
      expect(Math.abs(x - 50)).toBeLessThanOrEqual(12.01);
      expect(Math.abs(y - 50)).toBeLessThanOrEqual(12.01);
    }
  });
});
