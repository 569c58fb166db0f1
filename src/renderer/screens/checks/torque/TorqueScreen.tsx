import type { CheckProps } from '../check/checkProps.ts';
import { isSleeveStep, SleeveScreen } from '../sleeve/SleeveScreen.tsx';
import { TakenUp } from '../check/TakenUp.tsx';
import { useWay } from '../check/useWay.ts';
import { TorqueLive } from './TorqueLive.tsx';
import { TorqueRecorded } from './TorqueRecorded.tsx';
import { TorqueTyped } from './TorqueTyped.tsx';

/** Rotating torque: taken live or entered by hand, or as it was recorded, with the way to take it anew. */
export function TorqueScreen(props: CheckProps) {
  const { recorded, byHand, anew, enterByHand, listen } = useWay(props);
  if (recorded?.result.kind === 'torque')
    return <TorqueRecorded {...props} measurement={recorded} result={recorded.result} onAnew={anew} />;
  if (byHand) return <TorqueTyped key={`${props.assembly.id} ${props.check.id}`} {...props} onListen={listen} />;
  if (isSleeveStep(props)) return <SleeveScreen {...props} onByHand={enterByHand} />;
  return (
    <TakenUp of={props}>
      {({ look, found }) => <TorqueLive key={look} {...props} found={found} onByHand={enterByHand} />}
    </TakenUp>
  );
}
