import { useMemo } from 'react';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { aimOf } from '../../../../shared/axle/plan/aim.ts';
import type { PlanInput } from '../../../../shared/axle/plan/input.ts';
import type { Place } from '../../../../shared/axle/plan/sight.ts';
import type { Foreseen } from '../../../../shared/job/planning/foresee.ts';
import { FlanksPicture, shown } from '../../../instruments/FlanksPicture.tsx';
import { useSession } from '../../../stores/session.ts';
import { BacklashForeseen } from './BacklashForeseen.tsx';
import { Mover } from './Mover.tsx';
import { pinionSays, ringSays } from './words.ts';

interface PlanPictureProps {
  readonly makeUp: MakeUp;
  readonly input: PlanInput;
  readonly foreseen: Foreseen | undefined;
  /** From where the trial stands. */
  readonly move: Place;
  readonly onMove: (move: Place) => void;
}

/** As far as a hand can move things here (mm); beyond it the model is not checked (docs/mesh-model.md). */
const reach_mm = 0.6;

/** Seen and expected marks on both flanks, the backlash beside them, and what moves all three. */
export function PlanPicture({ makeUp, input, foreseen, move, onMove }: PlanPictureProps) {
  const units = useSession((session) => session.units);
  const pattern = input.trials.at(-1)?.pattern;
  const aim = useMemo(() => aimOf(input), [input]);
  const used = input.target.kind === 'used-set' ? input.target : undefined;
  const drive = useMemo(
    () => shown(pattern?.drive, foreseen?.expected.drive, aim.drive, used?.drive),
    [pattern, foreseen, aim, used],
  );
  const coast = useMemo(
    () => shown(pattern?.coast, foreseen?.expected.coast, aim.coast, used?.coast),
    [pattern, foreseen, aim, used],
  );
  return (
    <div className="plan__picture">
      <FlanksPicture makeUp={makeUp} drive={drive} coast={coast} />
      <div className="plan__movers">
        <Mover
          name="Pinion"
          ways={['Deeper', 'Out']}
          value={move.pinionOut}
          step={input.shimStep_mm.pinion}
          reach={reach_mm}
          says={pinionSays(units)}
          onChange={(pinionOut) => onMove({ ...move, pinionOut })}
        />
        <Mover
          name="Ring gear"
          ways={['Closer', 'Away']}
          value={move.ringAway}
          step={input.shimStep_mm.side}
          reach={reach_mm}
          says={ringSays(units)}
          onChange={(ringAway) => onMove({ ...move, ringAway })}
        />
        <BacklashForeseen foreseen={foreseen} limits={input.limits.backlash_mm} />
      </div>
    </div>
  );
}
