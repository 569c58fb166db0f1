import { type RefObject, useEffect, useRef } from 'react';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';

interface LoupeProps {
  readonly picture: RefObject<HTMLImageElement | null>;
  /** The pixel under the finger. */
  readonly at: Pixel;
  /** Screen pixels to a pixel of the photo, without the loupe. */
  readonly scale: number;
  readonly side: 'left' | 'right';
}

const size_px = 160;
/** How much larger than beside it. */
const larger = 4;

/** What lies under the finger, larger, with a cross on it; at the side where the finger is not. */
export function Loupe({ picture, at, scale, side }: LoupeProps) {
  const glass = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = glass.current?.getContext('2d');
    const from = picture.current;
    if (context === null || context === undefined || from === null) return;
    const span = size_px / (scale * larger);
    context.clearRect(0, 0, size_px, size_px);
    context.drawImage(from, at[0] - span / 2, at[1] - span / 2, span, span, 0, 0, size_px, size_px);
  }, [picture, at, scale]);
  return (
    <div className={`loupe loupe--${side}`} aria-hidden="true">
      <canvas ref={glass} width={size_px} height={size_px} />
    </div>
  );
}
