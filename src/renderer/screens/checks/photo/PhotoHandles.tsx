import { type Bends, bendThrough, type FlankMap, straight } from '../../../../shared/axle/mark/flankMap.ts';
import { type Edge, edgeNames } from '../../../../shared/axle/mark/mark.ts';
import type { FlankCorners, Pixel } from '../../../../shared/axle/mark/photo.ts';
import type { PhotoFit } from './fit.ts';
import { placeOnEdge } from './FlankOutline.tsx';
import { PhotoHandle } from './PhotoHandle.tsx';
import { cornerNames } from './readingWords.ts';
import type { Said } from './usePhoto.ts';

interface HandlesProps {
  readonly said: Said;
  readonly fit: PhotoFit;
  /** The pixel that is held, to be seen in the loupe. */
  readonly onHold: (pixel: Pixel | undefined) => void;
  readonly onChange: (said: Said) => void;
}

/** A handle at every corner that was tapped. */
export const CornerHandles = ({ said, fit, onHold, onChange }: HandlesProps) =>
  said.corners.map((corner, n) => (
    <PhotoHandle
      key={cornerNames[n] ?? n}
      look="corner"
      name={`Corner of ${cornerNames[n] ?? ''}`}
      at={fit.onScreen(corner)}
      onHold={(place) => onHold(place === undefined ? undefined : fit.inPhoto(place))}
      onDrag={(place) => onChange({ ...said, corners: said.corners.with(n, fit.inPhoto(place)) })}
    />
  ));

interface BendHandlesProps extends HandlesProps {
  readonly flank: FlankMap;
  readonly corners: FlankCorners;
  /** Bends as drawn: by hand, or as they were found. */
  readonly bends: Bends | undefined;
}

/** Shorter than this on the screen an edge has no room for a handle between those of its corners, nor a bend to speak of. */
const leastEdge_px = 96;

/** A handle at the middle of every edge with room for one; drawn aside it bends the edge, by as much as a tooth can be bent. */
export function BendHandles({ said, fit, flank, corners, bends, onHold, onChange }: BendHandlesProps) {
  const bent = (edge: Edge, to: Pixel): void => {
    const bend = Math.min(1, Math.max(-1, bendThrough(corners, edge, to)));
    onChange({ ...said, bends: { ...(said.bends ?? bends ?? straight), [edge]: bend } });
  };
  const onScreen = (edge: Edge, t: number): Pixel => fit.onScreen(flank.toPhoto(...placeOnEdge[edge](t)));
  const isLong = (edge: Edge): boolean => {
    const [from, to] = [onScreen(edge, 0), onScreen(edge, 1)];
    return Math.hypot(to[0] - from[0], to[1] - from[1]) >= leastEdge_px;
  };
  return edgeNames
    .filter(isLong)
    .map((edge) => (
      <PhotoHandle
        key={edge}
        look="edge"
        name={`Bend of the ${edge} edge`}
        at={onScreen(edge, 0.5)}
        onHold={(place) => onHold(place === undefined ? undefined : fit.inPhoto(place))}
        onDrag={(place) => bent(edge, fit.inPhoto(place))}
      />
    ));
}
