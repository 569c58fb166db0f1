import type { CheckProps } from '../check/checkProps.ts';
import { TakenUp } from '../check/TakenUp.tsx';
import { useWay } from '../check/useWay.ts';
import { RunoutLive } from './RunoutLive.tsx';
import { RunoutRecorded } from './RunoutRecorded.tsx';
import { RunoutTyped } from './RunoutTyped.tsx';

/** Runout: taken live or entered by hand, or as it was recorded, with the way to take it anew. */
export function RunoutScreen(props: CheckProps) {
  const { recorded, byHand, anew, enterByHand, listen } = useWay(props);
  if (recorded?.result.kind === 'runout')
    return <RunoutRecorded {...props} measurement={recorded} result={recorded.result} onAnew={anew} />;
  if (byHand) return <RunoutTyped key={`${props.assembly.id} ${props.check.id}`} {...props} onListen={listen} />;
  return (
    <TakenUp of={props}>
      {({ look, found }) => <RunoutLive key={look} {...props} found={found} onByHand={enterByHand} />}
    </TakenUp>
  );
}
