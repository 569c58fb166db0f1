import { Fragment, useMemo, useRef } from 'react';
import { flanksLayout, flanksScene } from '../../../../shared/presentation/drawing/flanks.ts';
import type { FlanksInput, FlankView } from '../../../../shared/presentation/drawing/flanksInput.ts';
import { type FlankGeometry, placeAt, placeOnFlank } from '../../../../shared/presentation/drawing/flankShape.ts';
import type { Point, SceneSize } from '../../../../shared/presentation/drawing/scene.ts';
import type { Flank, Mark } from '../../../../shared/axle/mark/mark.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { MarkPlace } from '../../../../shared/job/records/markResult.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { Drawing } from '../../../instruments/Drawing.tsx';
import { useRoom } from '../../../instruments/size.ts';
import { useSession } from '../../../stores/session.ts';
import { type PlaceDraft, type FlankSide, type SideDraft, sides } from './draft.ts';
import { controlRoom, EdgeControls } from './EdgeControls.tsx';
import { MarkHandles } from './MarkHandles.tsx';
import { freshMark, moved } from './shape.ts';

interface FlanksEditorProps {
  readonly draft: PlaceDraft;
  readonly found: MarkPlace | undefined;
  readonly makeUp: MakeUp | undefined;
  readonly onChange: (side: FlankSide, to: SideDraft) => void;
}

/** Both flanks as they stand before the technician. Touching one puts a mark there; its handles shape it. */
export function FlanksEditor(props: FlanksEditorProps) {
  const [room, size] = useRoom(16);
  return (
    <div className="instrument flanks" ref={room}>
      {size === undefined ? undefined : <Sized {...props} size={size} />}
    </div>
  );
}

function Sized({ draft, found, makeUp, onChange, size }: FlanksEditorProps & { readonly size: SceneSize }) {
  const toeAt = useSession((session) => session.toeAt);
  const dragged = useRef<FlankSide>(undefined);
  const input = useMemo(() => inputOf({ draft, found, makeUp, toeAt, size }), [draft, found, makeUp, toeAt, size]);
  const layout = useMemo(() => flanksLayout(input), [input]);
  const scene = useMemo(() => flanksScene(input), [input]);
  const put = (point: Point, phase: 'down' | 'move' | 'up'): void => {
    if (phase === 'down') dragged.current = sides.find((one) => liesOn(layout[one], point));
    const side = dragged.current;
    if (side === undefined) return;
    if (phase === 'up') dragged.current = undefined;
    const mark = markOf(draft[side]);
    const on = placeOnFlank(layout[side], point);
    onChange(side, mark === undefined ? freshMark(on) : moved(mark, on));
  };
  return (
    <>
      <Drawing scene={scene} onPoint={put} />
      {sides.map((side) => {
        const mark = markOf(draft[side]);
        const shaped = {
          side,
          geometry: layout[side],
          onChange: (changed: Mark) => onChange(side, changed),
        };
        return mark === undefined ? undefined : (
          <Fragment key={side}>
            <EdgeControls {...shaped} mark={mark} />
            <MarkHandles {...shaped} mark={mark} />
          </Fragment>
        );
      })}
    </>
  );
}

/** On the flank, or near enough to be meant for it. */
function liesOn(geometry: FlankGeometry, point: Point): boolean {
  const { heel, crown } = placeAt(geometry, point);
  return Math.abs(heel) <= 0.55 && Math.abs(crown) <= 0.6;
}

const markOf = (draft: SideDraft): Mark | undefined => (draft === 'no-mark' ? undefined : draft);

interface FlanksSeen extends Pick<FlanksEditorProps, 'draft' | 'found' | 'makeUp'> {
  readonly toeAt: 'left' | 'right';
  readonly size: SceneSize;
}

function inputOf({ draft, found, makeUp, toeAt, size }: FlanksSeen): FlanksInput {
  const driveFlank: Flank = makeUp?.driveFlank ?? 'convex';
  const coastFlank: Flank = driveFlank === 'convex' ? 'concave' : 'convex';
  return {
    drive: viewOf(driveFlank, draft.drive, found?.drive),
    coast: viewOf(coastFlank, draft.coast, found?.coast),
    cut: makeUp?.cut ?? 'not-known',
    turned: toeAt === 'left' ? 'toe-left' : 'toe-right',
    size,
    controlRoom,
  };
}

function viewOf(flank: Flank, draft: SideDraft, found: MarkPlace['drive'] | undefined): FlankView {
  const seen = markOf(draft);
  return {
    flank,
    ...(seen === undefined ? {} : { seen }),
    ...(found === undefined || isNone(found) ? {} : { found }),
  };
}
