import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TakenUp } from '../check/TakenUp.tsx';
import { RunoutLive } from './RunoutLive.tsx';
import { RunoutRecorded } from './RunoutRecorded.tsx';

/** Runout: taken live, or as it was recorded, with the way to take it anew. */
export function RunoutScreen(props: CheckProps) {
  const recorded = latest(props.assembly, props.check.id);
  const [anewAfter, setAnewAfter] = useState<string>();
  if (recorded?.result.kind === 'runout' && recorded.id !== anewAfter) {
    return (
      <RunoutRecorded
        {...props}
        measurement={recorded}
        result={recorded.result}
        onAnew={() => setAnewAfter(recorded.id)}
      />
    );
  }
  return <TakenUp of={props}>{({ look, found }) => <RunoutLive key={look} {...props} found={found} />}</TakenUp>;
}
