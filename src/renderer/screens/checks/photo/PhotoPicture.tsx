import { type PointerEvent, useRef, useState } from 'react';
import { type Bends, bendThrough, mapFlank, straight } from '../../../../shared/axle/mark/flankMap.ts';
import { type Edge, edgeNames } from '../../../../shared/axle/mark/mark.ts';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';
import { useRoom } from '../../../instruments/size.ts';
import { Loupe } from './Loupe.tsx';
import { PhotoHandle } from './PhotoHandle.tsx';
import { cornerNames } from './readingWords.ts';
import { cornersOf, type Said } from './usePhoto.ts';

interface PhotoPictureProps {
  readonly url: string | undefined;
  readonly size: { readonly width: number; readonly height: number } | undefined;
  readonly said: Said;
  /** Bends as drawn: by hand, or as they were found. */
  readonly bends: Bends | undefined;
  readonly onChange: (said: Said) => void;
}

/** The photo, with a handle at every corner that was tapped and at the middle of every edge. */
export function PhotoPicture(props: PhotoPictureProps) {
  const [room, space] = useRoom(16);
  return (
    <div className="instrument photo" ref={room}>
      {space === undefined || props.size === undefined || props.url === undefined ? (
        <p className="quiet">Opening the photo …</p>
      ) : (
        <Fitted {...props} url={props.url} size={props.size} space={space} />
      )}
    </div>
  );
}

interface FittedProps extends PhotoPictureProps {
  readonly url: string;
  readonly size: { readonly width: number; readonly height: number };
  readonly space: { readonly width: number; readonly height: number };
}

function Fitted({ url, size, space, said, bends, onChange }: FittedProps) {
  const scale = Math.min(space.width / size.width, space.height / size.height);
  const [left, top] = [(space.width - size.width * scale) / 2, (space.height - size.height * scale) / 2];
  const [held, setHeld] = useState<Pixel>();
  const picture = useRef<HTMLImageElement>(null);
  const placing = useRef(false);
  const onScreen = ([x, y]: Pixel): Pixel => [left + x * scale, top + y * scale];
  const inPhoto = ([x, y]: Pixel): Pixel => [
    Math.min(size.width - 1, Math.max(0, (x - left) / scale)),
    Math.min(size.height - 1, Math.max(0, (y - top) / scale)),
  ];
  const corners = cornersOf(said);
  const at = (event: PointerEvent<HTMLElement>): Pixel => {
    const box = event.currentTarget.getBoundingClientRect();
    return inPhoto([event.clientX - box.left, event.clientY - box.top]);
  };
  // The corner is placed where the finger lets go: what lies under it is seen in the loupe until then.
  const place = (event: PointerEvent<HTMLElement>, phase: 'down' | 'move' | 'up'): void => {
    if (phase === 'down' && event.target === event.currentTarget && corners === undefined) {
      placing.current = true;
      event.currentTarget.setPointerCapture(event.pointerId);
    }
    if (!placing.current) return;
    const pixel = at(event);
    setHeld(phase === 'up' ? undefined : pixel);
    if (phase !== 'up') return;
    placing.current = false;
    onChange({ ...said, corners: [...said.corners, pixel] });
  };
  const moved = (n: number, to: Pixel): void =>
    onChange({ ...said, corners: said.corners.map((corner, one) => (one === n ? to : corner)) });
  const bent = (edge: Edge, to: Pixel): void => {
    if (corners === undefined) return;
    const bend = Math.min(1, Math.max(-1, bendThrough(corners, edge, to)));
    onChange({ ...said, bends: { ...(said.bends ?? bends ?? straight), [edge]: bend } });
  };
  const map = corners === undefined ? undefined : mapFlank(corners, bends ?? straight);
  const laid = map?.ok === true ? map.value : undefined;
  return (
    <div
      className={`photo__room${corners === undefined ? ' photo__room--tapping' : ''}`}
      onPointerDown={(event) => place(event, 'down')}
      onPointerMove={(event) => place(event, 'move')}
      onPointerUp={(event) => place(event, 'up')}
    >
      <img
        ref={picture}
        className="photo__picture"
        decoding="async"
        src={url}
        alt="The photo of the flank"
        draggable={false}
        style={{ left, top, width: size.width * scale, height: size.height * scale }}
      />
      {laid === undefined ? undefined : (
        <svg className="photo__outline" viewBox={`0 0 ${space.width} ${space.height}`} aria-hidden="true">
          {edgeNames.map((edge) => (
            <EdgeLine
              key={edge}
              edge={edge}
              points={along(edge).map(([x, y]) => onScreen(laid.toPhoto(x, y)))}
              from={onScreen(laid.toPhoto(0.5, 0.5))}
            />
          ))}
        </svg>
      )}
      {laid === undefined
        ? undefined
        : edgeNames.map((edge) => (
            <PhotoHandle
              key={edge}
              look="edge"
              name={`Bend of the ${edge} edge`}
              at={onScreen(laid.toPhoto(...middleOf[edge]))}
              onHold={(point) => setHeld(point === undefined ? undefined : inPhoto(point))}
              onDrag={(point) => bent(edge, inPhoto(point))}
            />
          ))}
      {said.corners.map((corner, n) => (
        <PhotoHandle
          key={cornerNames[n] ?? n}
          look="corner"
          name={`Corner of ${cornerNames[n] ?? ''}`}
          at={onScreen(corner)}
          onHold={(point) => setHeld(point === undefined ? undefined : inPhoto(point))}
          onDrag={(point) => moved(n, inPhoto(point))}
        />
      ))}
      {held === undefined ? undefined : (
        <Loupe
          picture={picture}
          at={held}
          scale={scale}
          side={held[0] * scale + left < space.width / 2 ? 'right' : 'left'}
        />
      )}
    </div>
  );
}

/** Places along an edge, from one corner to the next: how far from the toe, how far from the root. */
const along = (edge: Edge): readonly Pixel[] =>
  Array.from({ length: 25 }, (_, step): Pixel => {
    const t = step / 24;
    return { toe: [0, t], heel: [1, t], crown: [t, 1], root: [t, 0] }[edge] as unknown as Pixel;
  });

const middleOf: Readonly<Record<Edge, Pixel>> = { toe: [0, 0.5], heel: [1, 0.5], crown: [0.5, 1], root: [0.5, 0] };

interface EdgeLineProps {
  readonly edge: Edge;
  readonly points: readonly Pixel[];
  /** The middle of the flank: the name stands on the other side of the edge. */
  readonly from: Pixel;
}

/** Dark within light, so that it is seen on every photo; its name stands outside, clear of the handle. */
function EdgeLine({ edge, points, from }: EdgeLineProps) {
  const d = points.map(([x, y], n) => `${n === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
  const [x, y] = points[12] ?? [0, 0];
  const out = Math.hypot(x - from[0], y - from[1]) || 1;
  const gap = edge === 'toe' || edge === 'heel' ? 42 : 28;
  return (
    <>
      <path className="photo__halo" d={d} />
      <path className="photo__line" d={d} />
      <text
        className="photo__word"
        x={x + ((x - from[0]) / out) * gap}
        y={y + ((y - from[1]) / out) * gap + 5}
        textAnchor="middle"
      >
        {edge}
      </text>
    </>
  );
}
