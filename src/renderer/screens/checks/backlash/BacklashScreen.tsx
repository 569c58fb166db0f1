import type { CheckProps } from '../check/checkProps.ts';
import { TakenUp } from '../check/TakenUp.tsx';
import { useWay } from '../check/useWay.ts';
import { BacklashLive } from './BacklashLive.tsx';
import { BacklashRecorded } from './BacklashRecorded.tsx';
import { BacklashTyped } from './BacklashTyped.tsx';

/** Backlash: taken live or entered by hand, or as it was recorded, with the way to take it anew. */
export function BacklashScreen(props: CheckProps) {
  const { recorded, byHand, anew, enterByHand, listen } = useWay(props);
  if (recorded?.result.kind === 'backlash')
    return <BacklashRecorded {...props} measurement={recorded} result={recorded.result} onAnew={anew} />;
  if (byHand) return <BacklashTyped key={props.assembly.id} {...props} onListen={listen} />;
  return (
    <TakenUp of={props}>
      {({ look, found }) => <BacklashLive key={look} {...props} found={found} onByHand={enterByHand} />}
    </TakenUp>
  );
}
