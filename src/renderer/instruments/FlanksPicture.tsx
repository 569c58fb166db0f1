import { useMemo } from 'react';
import { flanksScene } from '../../shared/presentation/drawing/flanks.ts';
import type { FlankView, TargetZone } from '../../shared/presentation/drawing/flanksInput.ts';
import type { Flank, Mark } from '../../shared/axle/mark/mark.ts';
import type { MakeUp } from '../../shared/axle/makeUp.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

/** What is known of one flank's mark. */
type FlankShown = Omit<FlankView, 'flank'>;

interface FlanksPictureProps {
  readonly makeUp: MakeUp;
  readonly drive: FlankShown;
  readonly coast: FlankShown;
  /** Small, beside others: without the names of the edges. */
  readonly bare?: boolean;
}

/** Both flanks to be looked at: the mark, where the plan expects it, where it belongs. */
export function FlanksPicture({ makeUp, drive, coast, bare = false }: FlanksPictureProps) {
  const [room, size] = useRoom(14);
  const toeAt = useSession((session) => session.toeAt);
  const scene = useMemo(() => {
    if (size === undefined) return undefined;
    const [driving, coasting]: readonly [Flank, Flank] =
      makeUp.driveFlank === 'convex' ? ['convex', 'concave'] : ['concave', 'convex'];
    return flanksScene({
      drive: { flank: driving, ...drive },
      coast: { flank: coasting, ...coast },
      cut: makeUp.cut,
      turned: toeAt === 'left' ? 'toe-left' : 'toe-right',
      size,
      bare,
      wordsGiveWay: true,
    });
  }, [size, makeUp, drive, coast, toeAt, bare]);
  return (
    <div className="instrument" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}

/** Parts of a view that are there. */
export const shown = (
  seen: Mark | undefined,
  planned: Mark | undefined,
  target?: TargetZone,
  found?: Mark,
): FlankShown => ({
  ...(seen === undefined ? {} : { seen }),
  ...(planned === undefined ? {} : { planned }),
  ...(target === undefined ? {} : { target }),
  ...(found === undefined ? {} : { found }),
});
