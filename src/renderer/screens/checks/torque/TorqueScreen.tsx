import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { isSleeveStep, SleeveScreen } from '../sleeve/SleeveScreen.tsx';
import { TakenUp } from '../check/TakenUp.tsx';
import { TorqueLive } from './TorqueLive.tsx';
import { TorqueRecorded } from './TorqueRecorded.tsx';

/** Rotating torque: taken live, or as it was recorded, with the way to take it anew. */
export function TorqueScreen(props: CheckProps) {
  const recorded = latest(props.assembly, props.check.id);
  const [anewAfter, setAnewAfter] = useState<string>();
  if (recorded?.result.kind === 'torque' && recorded.id !== anewAfter) {
    return (
      <TorqueRecorded
        {...props}
        measurement={recorded}
        result={recorded.result}
        onAnew={() => setAnewAfter(recorded.id)}
      />
    );
  }
  if (isSleeveStep(props)) return <SleeveScreen {...props} />;
  return <TakenUp of={props}>{({ look, found }) => <TorqueLive key={look} {...props} found={found} />}</TakenUp>;
}
