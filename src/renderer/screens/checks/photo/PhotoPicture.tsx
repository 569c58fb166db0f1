import { useRef, useState } from 'react';
import { type Bends, mapFlank, straight } from '../../../../shared/axle/mark/flankMap.ts';
import type { Pixel } from '../../../../shared/axle/mark/photo.ts';
import { useRoom } from '../../../instruments/size.ts';
import { type Extent, fitIn } from './fit.ts';
import { FlankOutline } from './FlankOutline.tsx';
import { Loupe } from './Loupe.tsx';
import { BendHandles, CornerHandles } from './PhotoHandles.tsx';
import { cornersOf, type Said } from './usePhoto.ts';
import { useTapping } from './useTapping.ts';

interface PhotoPictureProps {
  readonly url: string | undefined;
  readonly size: Extent | undefined;
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
  readonly size: Extent;
  readonly space: Extent;
}

function Fitted({ url, size, space, said, bends, onChange }: FittedProps) {
  const fit = fitIn(size, space);
  const { left, top, scale } = fit;
  const [held, onHold] = useState<Pixel>();
  const picture = useRef<HTMLImageElement>(null);
  const corners = cornersOf(said);
  const tapping = corners === undefined;
  const tap = useTapping({
    tapping,
    inPhoto: fit.inPhoto,
    onHold,
    onPlaced: (pixel) => onChange({ ...said, corners: [...said.corners, pixel] }),
  });
  const map = corners === undefined ? undefined : mapFlank(corners, bends ?? straight);
  const handles = { said, fit, onHold, onChange };
  return (
    <div className={`photo__room${tapping ? ' photo__room--tapping' : ''}`} {...tap}>
      <img
        ref={picture}
        className="photo__picture"
        decoding="async"
        src={url}
        alt="The photo of the flank"
        draggable={false}
        style={{ left, top, width: size.width * scale, height: size.height * scale }}
      />
      {corners === undefined || map?.ok !== true ? undefined : (
        <>
          <FlankOutline flank={map.value} fit={fit} space={space} />
          <BendHandles {...handles} flank={map.value} corners={corners} bends={bends} />
        </>
      )}
      <CornerHandles {...handles} />
      {held === undefined ? undefined : (
        <Loupe
          picture={picture}
          at={held}
          scale={scale}
          side={fit.onScreen(held)[0] < space.width / 2 ? 'right' : 'left'}
        />
      )}
    </div>
  );
}
