import { useEffect, useState } from 'react';
import { Button } from '../../../parts/Button.tsx';
import { keyWords } from '../../../parts/Words.tsx';
import { changeSession, useSession } from '../../../stores/session.ts';

/** Keys that must keep their own meaning, whatever a pedal sends. */
const reserved = new Set([
  'Escape',
  'Tab',
  'Enter',
  'ShiftLeft',
  'ShiftRight',
  'ControlLeft',
  'ControlRight',
  'AltLeft',
  'AltRight',
]);

/** Learns the pedal: press it once and it means next from then on. */
export function PedalKey() {
  const pedal = useSession((session) => session.pedalKey);
  const [listening, setListening] = useState(false);
  useEffect(() => {
    if (!listening) return undefined;
    const learn = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopPropagation();
      setListening(false);
      if (!reserved.has(event.code) && event.code !== '') changeSession({ pedalKey: event.code });
    };
    addEventListener('keydown', learn, { capture: true });
    return () => removeEventListener('keydown', learn, { capture: true });
  }, [listening]);
  return (
    <Button onPress={() => setListening(true)}>
      {listening ? 'Step on the pedal now …' : `Pedal sends ${keyWords(pedal)}. Learn another`}
    </Button>
  );
}
