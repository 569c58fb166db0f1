import { useState } from 'react';
import { fail, ok } from '../../../../shared/basics/result.ts';
import { Field } from '../../../parts/Field.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';

/** The set numbers cut on both gears; a set is replaced only as a pair. */
export function SetNumbersScreen(props: CheckProps) {
  const [pinion, setPinion] = useState('');
  const [ringGear, setRingGear] = useState('');
  const [tried, setTried] = useState(false);
  const missing = (text: string): string | undefined =>
    tried && text.trim() === '' ? 'Type it exactly as it is cut.' : undefined;
  const read = () => {
    if (pinion.trim() === '' || ringGear.trim() === '')
      return fail({ kind: 'unanswered', sentence: 'Both numbers are needed.', remedy: 'Read them off the gears.' });
    const result = { kind: 'set-numbers' as const, pinion: pinion.trim(), ringGear: ringGear.trim() };
    return ok({ how: { kind: 'seen' as const }, result });
  };
  return (
    <TypedStage
      {...props}
      read={read}
      onRefused={() => setTried(true)}
      touched={pinion.trim() !== '' || ringGear.trim() !== ''}
      keep="Keep the set numbers"
    >
      <Field autoFocus label="On the pinion head" value={pinion} onChange={setPinion} error={missing(pinion)} />
      <Field label="On the ring gear" value={ringGear} onChange={setRingGear} error={missing(ringGear)} />
    </TypedStage>
  );
}
