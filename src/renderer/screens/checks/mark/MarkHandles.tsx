import type { KeyboardEvent, PointerEvent } from 'react';
import { type FlankGeometry, placeAt, pointAt } from '../../../../shared/presentation/drawing/flankShape.ts';
import type { Point } from '../../../../shared/presentation/drawing/scene.ts';
import type { Mark } from '../../../../shared/axle/mark/mark.ts';
import { endDragged, endOf, heightened, lengthened, moved, slanted, topDragged, topOf } from './shape.ts';
import type { FlankSide } from './draft.ts';

interface MarkHandlesProps {
  readonly side: FlankSide;
  readonly mark: Mark;
  readonly geometry: FlankGeometry;
  readonly onChange: (mark: Mark) => void;
}

type Arrow = 'ArrowLeft' | 'ArrowRight' | 'ArrowUp' | 'ArrowDown';
type HandleSteps = Readonly<Record<Arrow, Mark>>;

/** What one press of an arrow key moves, as a share of the flank and in degrees. */
const step = 0.02;
const step_deg = 2;

/** The three places by which a mark is shaped: its middle, the end of its long axis, and its top. */
export function MarkHandles({ side, mark, geometry, onChange }: MarkHandlesProps) {
  const toHeel = geometry.turned === 'toe-left' ? 1 : -1;
  const { heel, crown, length, height, slant_deg } = mark;
  return (
    <>
      <Handle
        name={`Middle of the ${side} mark`}
        says={`${percent(heel)} towards the heel, ${percent(crown)} towards the crown`}
        at={pointAt(geometry, mark)}
        value={heel}
        look="middle"
        onDrag={(point) => onChange(moved(mark, placeAt(geometry, point)))}
        steps={arrows(
          moved(mark, { heel: heel - step * toHeel, crown }),
          moved(mark, { heel: heel + step * toHeel, crown }),
          moved(mark, { heel, crown: crown + step }),
          moved(mark, { heel, crown: crown - step }),
        )}
        onStep={onChange}
      />
      <Handle
        name={`Length and slant of the ${side} mark`}
        says={`${percent(length)} long, slant ${slant_deg} degrees`}
        at={pointAt(geometry, endOf(mark, geometry))}
        value={length}
        look="end"
        away={{ x: 30 * toHeel, y: 0 }}
        onDrag={(point) => onChange(endDragged(mark, placeAt(geometry, point), geometry))}
        steps={arrows(
          lengthened(mark, length - step * 2 * toHeel),
          lengthened(mark, length + step * 2 * toHeel),
          slanted(mark, slant_deg + step_deg),
          slanted(mark, slant_deg - step_deg),
        )}
        onStep={onChange}
      />
      <Handle
        name={`Height of the ${side} mark`}
        says={`${percent(height)} high`}
        at={pointAt(geometry, topOf(mark))}
        value={height}
        look="top"
        away={{ x: 0, y: -40 }}
        onDrag={(point) => onChange(topDragged(mark, placeAt(geometry, point)))}
        steps={arrows(
          heightened(mark, height - step * 2),
          heightened(mark, height + step * 2),
          heightened(mark, height + step * 2),
          heightened(mark, height - step * 2),
        )}
        onStep={onChange}
      />
    </>
  );
}

const arrows = (ArrowLeft: Mark, ArrowRight: Mark, ArrowUp: Mark, ArrowDown: Mark): HandleSteps => ({
  ArrowLeft,
  ArrowRight,
  ArrowUp,
  ArrowDown,
});

const percent = (fraction: number): string => `${Math.round(fraction * 100)} percent`;

const noWay: Point = { x: 0, y: 0 };

interface HandleProps {
  readonly name: string;
  readonly says: string;
  readonly at: Point;
  readonly value: number;
  readonly steps: HandleSteps;
  /** How far outside the mark the handle stands, so that three of them never lie under one finger. */
  readonly away?: Point;
  readonly look: 'middle' | 'end' | 'top';
  readonly onDrag: (point: Point) => void;
  readonly onStep: (mark: Mark) => void;
}

/** A place to take hold of with finger or arrow keys. Scene units are pixels here, because the drawing is made for its room. */
function Handle({ name, says, at, value, steps, away = noWay, look, onDrag, onStep }: HandleProps) {
  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const room = event.currentTarget.parentElement?.getBoundingClientRect();
    if (room !== undefined) onDrag({ x: event.clientX - room.left - away.x, y: event.clientY - room.top - away.y });
  };
  const key = (event: KeyboardEvent): void => {
    if (!(event.key in steps)) return;
    event.preventDefault();
    onStep(steps[event.key as Arrow]);
  };
  return (
    <div
      className={`handle handle--${look}`}
      role="slider"
      tabIndex={0}
      aria-label={name}
      aria-valuemin={-100}
      aria-valuemax={100}
      aria-valuenow={Math.round(value * 100)}
      aria-valuetext={says}
      style={{ left: at.x + away.x, top: at.y + away.y }}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={drag}
      onKeyDown={key}
    />
  );
}
