import { useEffect, useState } from 'react';
import { whyNoPedal } from '../../../commands/pedalKey.ts';
import { commandsNow } from '../../../commands/registry.ts';
import { Button } from '../../../parts/Button.tsx';
import { keyWords } from '../../../parts/Words.tsx';
import { changeSession, useSession } from '../../../stores/session.ts';

/** Learns the pedal: press it once and it means next from then on. Escape leaves it as it was. */
export function PedalKey() {
  const pedal = useSession((session) => session.pedalKey);
  const [listening, setListening] = useState(false);
  const [why, setWhy] = useState<string>();
  useEffect(() => {
    if (!listening) return undefined;
    const learn = (event: KeyboardEvent): void => {
      event.preventDefault();
      event.stopPropagation();
      setListening(false);
      const refused = event.key === 'Escape' ? undefined : whyNoPedal(event, commandsNow());
      setWhy(refused);
      if (refused === undefined && event.key !== 'Escape') changeSession({ pedalKey: event.code });
    };
    addEventListener('keydown', learn, { capture: true });
    return () => removeEventListener('keydown', learn, { capture: true });
  }, [listening]);
  return (
    <>
      <Button onPress={() => setListening(true)}>
        {listening ? 'Step on the pedal now …' : `Pedal sends ${keyWords(pedal)}. Learn another`}
      </Button>
      {why === undefined ? undefined : <p role="alert">{why}</p>}
    </>
  );
}
