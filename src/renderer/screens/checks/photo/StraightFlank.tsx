import { type PointerEvent, useEffect, useRef, useState } from 'react';
import type { BrushTouch } from '../../../../shared/axle/mark/brush.ts';
import type { ReadMark, StraightPicture } from '../../../photos/messages.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { maskOutline } from './maskOutline.ts';

interface StraightFlankProps {
  readonly picture: StraightPicture | undefined;
  readonly mask: ReadMark['mask'] | undefined;
  readonly brushed: readonly BrushTouch[];
  /** Whether the mark is outlined by hand from the beginning, nothing being read. */
  readonly fromEmpty: boolean;
  readonly onEmpty: (fromEmpty: boolean) => void;
  readonly onBrush: (brushed: readonly BrushTouch[]) => void;
  /** What makes the reading less sure. */
  readonly warnings: readonly string[];
}

/** Radius of the brush, as a share of the face width: a finger's width on this picture. */
const radius = 0.035;

/** The flank laid straight with the outline of what was read as mark, and a brush to correct it. */
export function StraightFlank(props: StraightFlankProps) {
  const { picture, mask, brushed, fromEmpty, onBrush, onEmpty, warnings } = props;
  const [to, setTo] = useState<BrushTouch['to']>('mark');
  const brush = useBrush(brushed, to, onBrush);
  if (picture === undefined) return <div className="straight" />;
  return (
    <div className="straight">
      <h2 className="straight__title">Laid straight, toe left, crown above</h2>
      <div className="straight__flank" {...brush}>
        <Straight picture={picture} />
        {mask === undefined ? undefined : (
          <svg viewBox={`0 0 ${mask.columns} ${mask.rows}`} preserveAspectRatio="none" aria-hidden="true">
            <path className="straight__halo" d={maskOutline(mask)} />
            <path className="straight__line" d={maskOutline(mask)} />
          </svg>
        )}
      </div>
      <Choice
        label={fromEmpty ? 'Brush: paint where the mark lies, or go round it' : 'Brush, where the outline is wrong'}
        value={to}
        onChange={setTo}
        options={[
          { value: 'mark', words: 'Mark' },
          { value: 'compound', words: 'Compound' },
        ]}
      />
      <div className="straight__doing">
        {brushed.length === 0 ? undefined : (
          <Button look="quiet" onPress={() => onBrush([])}>
            Undo the brush
          </Button>
        )}
        {mask === undefined || fromEmpty ? undefined : (
          <Button look="quiet" onPress={() => onEmpty(true)}>
            Outline it by hand
          </Button>
        )}
      </div>
      {warnings.map((warning) => (
        <p key={warning} className="quiet">
          {warning}
        </p>
      ))}
    </div>
  );
}

/** The picture of the flank, drawn anew only where another one comes. */
function Straight({ picture }: { readonly picture: StraightPicture }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context === null || context === undefined) return;
    context.putImageData(new ImageData(picture.rgba, picture.width, picture.height), 0, 0);
  }, [picture]);
  return (
    <canvas
      ref={canvas}
      width={picture.width}
      height={picture.height}
      role="img"
      aria-label="The flank laid straight, with the mark outlined"
    />
  );
}

/** What the pointer does on the flank: one stroke of the brush after another. */
function useBrush(
  brushed: readonly BrushTouch[],
  to: BrushTouch['to'],
  onBrush: (brushed: readonly BrushTouch[]) => void,
) {
  // What lay there before the stroke, and the stroke: several touches may come before the screen is drawn anew.
  const before = useRef<readonly BrushTouch[]>([]);
  const stroke = useRef<readonly BrushTouch[]>([]);
  const touch = (event: PointerEvent<HTMLElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = event.currentTarget.getBoundingClientRect();
    const along = (event.clientX - box.left) / box.width;
    const up = 1 - (event.clientY - box.top) / box.height;
    const last = stroke.current.at(-1);
    if (last !== undefined && Math.hypot(last.along - along, (last.up - up) * 0.35) < radius / 2) return;
    const touched = { along: clamped(along), up: clamped(up), radius, to };
    stroke.current = [...stroke.current, touched];
    onBrush([...before.current, ...stroke.current]);
  };
  const begin = (event: PointerEvent<HTMLElement>): void => {
    event.currentTarget.setPointerCapture(event.pointerId);
    before.current = brushed;
    stroke.current = [];
    touch(event);
  };
  return { onPointerDown: begin, onPointerMove: touch };
}

const clamped = (share: number): number => Math.min(1.2, Math.max(-0.2, share));
