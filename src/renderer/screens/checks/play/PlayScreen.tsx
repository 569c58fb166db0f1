import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { QuantityScreen } from '../typed/QuantityScreen.tsx';
import { PlayLive } from './PlayLive.tsx';
import { PlayRecorded } from './PlayRecorded.tsx';

/** Play along an axis: by an indicator while it is pushed and pulled, or by hand where none sends. */
export function PlayScreen(props: CheckProps) {
  const last = latest(props.assembly, props.check.id);
  const recorded = last?.id === props.anew ? undefined : last;
  const [way, setWay] = useState<'recorded' | 'live' | 'by-hand'>(recorded === undefined ? 'live' : 'recorded');
  if (way === 'recorded' && recorded !== undefined)
    return <PlayRecorded {...props} measurement={recorded} onAnew={() => setWay('live')} />;
  if (way === 'by-hand')
    return (
      <QuantityScreen
        {...props}
        measure="dial"
        others={<Button onPress={() => setWay('live')}>By the indicator</Button>}
      />
    );
  const notFelt = { kind: 'quantity', value: { value: 0, unit: 'mm' } } as const;
  return <PlayLive {...props} ways={{ notFelt, byHand: 'Enter it by hand', onByHand: () => setWay('by-hand') }} />;
}
