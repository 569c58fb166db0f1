import { useEffect, useState } from 'react';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { type Bends, type Depth, depthOfCut } from '../../../../shared/axle/mark/flankMap.ts';
import type { FlankCorners, Pixel } from '../../../../shared/axle/mark/photo.ts';
import type { BrushTouch } from '../../../../shared/axle/mark/brush.ts';
import type { ReadAnswer } from '../../../photos/messages.ts';
import { photoReader } from '../../../photos/reader.ts';
import { storedPhoto } from '../../../stores/photos.ts';

/** What a hand has said about the photo that lies open. */
export interface Said {
  readonly corners: readonly Pixel[];
  readonly bends: Bends | undefined;
  readonly brushed: readonly BrushTouch[];
  /** Outlined by hand on an empty flank. */
  readonly fromEmpty: boolean;
}

export const nothingSaid: Said = { corners: [], bends: undefined, brushed: [], fromEmpty: false };

export const cornersOf = ({ corners: [a, b, c, d] }: Said): FlankCorners | undefined =>
  a === undefined || b === undefined || c === undefined || d === undefined ? undefined : [a, b, c, d];

/** What the cut of the gear set says of the tooth's depth, where the build knows the cut. */
export const depthOf = (cut: MakeUp['cut'] | undefined): Depth | undefined =>
  cut === undefined || cut === 'not-known' ? undefined : depthOfCut(cut);

/** What goes into the record beside photo and corners, so that the mark can be read again. */
export const howRead = ({ bends, brushed, fromEmpty }: Said, depth: Depth | undefined) => ({
  ...(bends === undefined ? {} : { bends }),
  ...(depth === undefined ? {} : { depth }),
  ...(fromEmpty ? { fromEmpty: true as const } : {}),
  brushed: [...brushed],
});

interface OpenPhoto {
  readonly size: { readonly width: number; readonly height: number } | undefined;
  readonly reading: ReadAnswer | undefined;
  /** Whether the reading is of all that was said, and not of what was said a moment ago. */
  readonly upToDate: boolean;
}

/** Opens a stored photo in the worker and reads it anew with everything that is said about it. */
export function useReading(sha256: string, said: Said, depth: Depth | undefined): OpenPhoto {
  const [size, setSize] = useState<OpenPhoto['size']>();
  const [reading, setReading] = useState<{ readonly answer: ReadAnswer; readonly of: readonly unknown[] }>();
  useEffect(() => {
    let there = true;
    void storedPhoto(sha256).then(async (jpeg) => {
      if (jpeg === undefined) return;
      const opened = await photoReader().open(jpeg);
      if (there && opened.ok) setSize(opened.value);
    });
    return () => {
      there = false;
    };
  }, [sha256]);
  const { bends, brushed, fromEmpty } = said;
  const corners = cornersOf(said);
  const key = JSON.stringify(corners);
  useEffect(() => {
    if (size === undefined || corners === undefined) return undefined;
    let there = true;
    void photoReader()
      .read({ corners, brushed, fromEmpty, bends, depth })
      .then((answer) => {
        if (there && answer !== undefined) setReading({ answer, of: [key, bends, brushed, fromEmpty, depth] });
      });
    return () => {
      there = false;
    };
    // The corners are compared by what they are, not by which list holds them.
    // oxlint-disable-next-line react/exhaustive-deps
  }, [size, key, bends, brushed, fromEmpty, depth]);
  const now = [key, bends, brushed, fromEmpty, depth];
  const upToDate = reading !== undefined && now.every((one, n) => one === reading.of[n]);
  return { size, reading: corners === undefined ? undefined : reading?.answer, upToDate };
}
