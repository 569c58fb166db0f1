import { barScene } from '../../../../shared/presentation/drawing/bars.ts';
import type { State } from '../../../../shared/presentation/drawing/states.ts';
import { showText } from '../../../../shared/basics/show.ts';
import type { ExpectedSeen } from '../../../../shared/job/records/swap.ts';
import type { Foreseen } from '../../../../shared/job/planning/foresee.ts';
import { Drawing } from '../../../instruments/Drawing.tsx';
import { useRoom } from '../../../instruments/size.ts';
import { useSession } from '../../../stores/session.ts';

interface BacklashForeseenProps {
  readonly foreseen: Foreseen | undefined;
  readonly limits: readonly [number, number];
}

/** The backlash to expect against its window, following the gears as they are moved. */
export function BacklashForeseen({ foreseen, limits: [min, max] }: BacklashForeseenProps) {
  const [room, size] = useRoom(14);
  const units = useSession((session) => session.units);
  const backlash = foreseen?.expected.backlash;
  return (
    <div className="plan__backlash">
      <div className="mover__head">
        <span className="mover__name">Backlash expected</span>
        <span className="mover__says digits">
          {backlash === undefined ? '–' : showText(backlash.mean_mm, 'length', units)}
        </span>
      </div>
      <div className="instrument plan__bar" ref={room}>
        {size === undefined || backlash === undefined ? undefined : (
          <Drawing
            scene={barScene({
              quantity: 'Backlash expected',
              dimension: 'length',
              value: backlash.mean_mm,
              U95: backlash.U95_mm,
              limits: { min, max },
              state: stateOf(backlash, [min, max]),
              system: units,
              size,
            })}
          />
        )}
      </div>
    </div>
  );
}

/** Every station inside with room for the doubt, some outside, or too close to tell. */
function stateOf({ min_mm, max_mm, U95_mm }: ExpectedSeen['backlash'], [low, high]: readonly [number, number]): State {
  if (min_mm < low || max_mm > high) return 'outside';
  return min_mm - U95_mm < low || max_mm + U95_mm > high ? 'too-close' : 'within';
}
