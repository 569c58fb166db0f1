import type { KeyboardEvent, PointerEvent } from 'react';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';

interface PhotoHandleProps {
  readonly name: string;
  readonly look: 'corner' | 'edge';
  /** In pixels of the room the photo has on the screen. */
  readonly at: Pixel;
  readonly onDrag: (point: Pixel) => void;
  /** Where it is held, for the loupe; undefined when it is let go. */
  readonly onHold: (point: Pixel | undefined) => void;
}

/** Pixels of the screen for one press of an arrow key; with Shift it is a finer step. */
const [step, fine] = [4, 0.5];

/** A place in the photo to take hold of with a finger or with the arrow keys. */
export function PhotoHandle({ name, look, at, onDrag, onHold }: PhotoHandleProps) {
  const pointOf = (event: PointerEvent<HTMLDivElement>): Pixel => {
    const box = event.currentTarget.parentElement?.getBoundingClientRect();
    return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
  };
  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    onHold(pointOf(event));
    onDrag(pointOf(event));
  };
  const key = (event: KeyboardEvent): void => {
    const way = ways[event.key];
    if (way === undefined) return;
    event.preventDefault();
    const by = event.shiftKey ? fine : step;
    onDrag([at[0] + way[0] * by, at[1] + way[1] * by]);
  };
  return (
    <div
      className={`photo-handle photo-handle--${look}`}
      role="slider"
      tabIndex={0}
      aria-label={name}
      aria-valuemin={0}
      aria-valuemax={10_000}
      aria-valuenow={Math.round(at[0])}
      aria-valuetext={`${Math.round(at[0])} across, ${Math.round(at[1])} down`}
      style={{ left: at[0], top: at[1] }}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={drag}
      onPointerUp={() => onHold(undefined)}
      onPointerCancel={() => onHold(undefined)}
      onKeyDown={key}
    />
  );
}

const ways: Readonly<Record<string, Pixel>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
