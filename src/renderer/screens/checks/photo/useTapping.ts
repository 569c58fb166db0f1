import { type PointerEvent, useRef } from 'react';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';

interface TappingOptions {
  /** Whether a touch on the photo itself places a corner. */
  readonly tapping: boolean;
  readonly inPhoto: (place: Pixel) => Pixel;
  /** What lies under the finger now; nothing once it has let go. */
  readonly onHold: (pixel: Pixel | undefined) => void;
  readonly onPlaced: (pixel: Pixel) => void;
}

/** A corner is placed where the finger lets go: what lies under it is seen in the loupe until then. */
export function useTapping({ tapping, inPhoto, onHold, onPlaced }: TappingOptions) {
  const placing = useRef(false);
  const under = (event: PointerEvent<HTMLElement>): Pixel => {
    const box = event.currentTarget.getBoundingClientRect();
    return inPhoto([event.clientX - box.left, event.clientY - box.top]);
  };
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>): void => {
      if (!tapping || event.target !== event.currentTarget) return;
      placing.current = true;
      event.currentTarget.setPointerCapture(event.pointerId);
      onHold(under(event));
    },
    onPointerMove: (event: PointerEvent<HTMLElement>): void => {
      if (placing.current) onHold(under(event));
    },
    onPointerUp: (event: PointerEvent<HTMLElement>): void => {
      if (!placing.current) return;
      placing.current = false;
      onHold(undefined);
      onPlaced(under(event));
    },
  };
}
