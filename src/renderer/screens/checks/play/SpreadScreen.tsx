import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { QuantityScreen } from '../typed/QuantityScreen.tsx';
import { PlayRecorded } from './PlayRecorded.tsx';
import { SpreadLive } from './SpreadLive.tsx';

/** Preload of the case bearings: the shim that was added, written down; or how far the case spreads, by an indicator. */
export function SpreadScreen(props: CheckProps) {
  const last = latest(props.assembly, props.check.id);
  const recorded = last?.id === props.anew ? undefined : last;
  const [way, setWay] = useState<'recorded' | 'live' | 'by-hand'>(
    recorded?.result.kind === 'play' ? 'recorded' : 'by-hand',
  );
  if (way === 'recorded' && recorded !== undefined)
    return <PlayRecorded {...props} measurement={recorded} onAnew={() => setWay('live')} />;
  if (way === 'live') return <SpreadLive {...props} onByHand={() => setWay('by-hand')} />;
  return (
    <QuantityScreen
      {...props}
      measure="length"
      others={<Button onPress={() => setWay('live')}>By the indicator</Button>}
    />
  );
}
