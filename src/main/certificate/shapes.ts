import type { Ink } from '../../shared/presentation/drawing/inks.ts';
import { line } from '../../shared/presentation/drawing/paths.ts';
import { type Element, path } from '../../shared/presentation/drawing/scene.ts';
import { stateInk, stateMark } from '../../shared/presentation/drawing/states.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';

/** The shape of a state, centred at the origin; recorded is a plain dash: a number, and nothing to hold it against. */
export const shapeElements = (shape: Shape, size: number): readonly Element[] =>
  shape === 'recorded'
    ? [
        path(line({ x: -size * 0.32, y: 0 }, { x: size * 0.32, y: 0 }), {
          stroke: 'line',
          width: size * 0.16,
          cap: 'round',
        }),
      ]
    : stateMark(shape, { x: 0, y: 0 }, size);

/** The ink of the words beside it. */
export const shapeInk = (shape: Shape): Ink => (shape === 'recorded' ? 'quiet' : stateInk(shape));
