import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useUnfinished } from '../check/useUnfinished.ts';
import { BacklashLive } from './BacklashLive.tsx';
import { BacklashRecorded } from './BacklashRecorded.tsx';

/** Backlash: taken live, or as it was recorded, with the way to take it anew. */
export function BacklashScreen(props: CheckProps) {
  const recorded = latest(props.assembly, props.check.id);
  const [anewAfter, setAnewAfter] = useState<string>();
  if (recorded?.result.kind === 'backlash' && recorded.id !== anewAfter) {
    return (
      <BacklashRecorded
        {...props}
        measurement={recorded}
        result={recorded.result}
        onAnew={() => setAnewAfter(recorded.id)}
      />
    );
  }
  return <BacklashTakenUp {...props} />;
}

/** Goes on where it was broken off, by another screen or by a bench that ended. */
function BacklashTakenUp(props: CheckProps) {
  const looked = useUnfinished(props);
  if (looked === undefined)
    return (
      <Stage title={props.check.title}>
        <p className="quiet">What was taken before is being looked up.</p>
      </Stage>
    );
  return <BacklashLive key={looked.look} {...props} found={looked.found} />;
}
