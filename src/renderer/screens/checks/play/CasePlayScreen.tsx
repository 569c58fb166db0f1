import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { ConfirmScreen } from '../typed/ConfirmScreen.tsx';
import { PlayLive } from './PlayLive.tsx';
import { PlayRecorded } from './PlayRecorded.tsx';

/** Play in the case bearings as found: felt by hand and answered with yes or no, or read by an indicator. */
export function CasePlayScreen(props: CheckProps) {
  const last = latest(props.assembly, props.check.id);
  const recorded = last?.id === props.anew ? undefined : last;
  const [way, setWay] = useState<'recorded' | 'live' | 'by-hand'>(
    recorded?.result.kind === 'play' ? 'recorded' : 'by-hand',
  );
  if (way === 'recorded' && recorded !== undefined)
    return <PlayRecorded {...props} measurement={recorded} onAnew={() => setWay('live')} />;
  if (way === 'live') {
    const notFelt = { kind: 'confirmed', yes: true } as const;
    return <PlayLive {...props} ways={{ notFelt, byHand: 'Feel it by hand', onByHand: () => setWay('by-hand') }} />;
  }
  return <ConfirmScreen {...props} others={<Button onPress={() => setWay('live')}>By the indicator</Button>} />;
}
