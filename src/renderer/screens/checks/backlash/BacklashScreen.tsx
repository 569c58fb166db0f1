import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TakenUp } from '../check/TakenUp.tsx';
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
  return <TakenUp of={props}>{({ look, found }) => <BacklashLive key={look} {...props} found={found} />}</TakenUp>;
}
