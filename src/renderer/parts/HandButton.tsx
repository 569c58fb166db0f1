import { useEffect, useState } from 'react';
import { useBenchSeen } from '../stores/bench.ts';
import { offerHand, useHand, whileAtWork } from '../stores/hand.ts';
import { Button } from './Button.tsx';

/** The name on the button and in the sentence that points to it. */
const handName = 'Simulated hand';

/** On the simulated bench only: does what somebody's hands and eyes would at the stand. */
export function HandButton({ move }: { readonly move: () => Promise<unknown> }) {
  const simulated = useBenchSeen((seen) => seen.about?.simulated) === true;
  const [moved, setMoved] = useState(false);
  const offers = simulated && !moved;
  useEffect(() => (offers ? offerHand() : undefined), [offers]);
  if (!simulated) return undefined;
  const press = (): void => {
    setMoved(true);
    void whileAtWork(move);
  };
  return <Button onPress={press}>{handName}</Button>;
}

/** Whoever sees the simulated bench for the first time does not know whose hands turn the gears. */
export function HandSentence() {
  const { offered, atWork } = useHand();
  if (atWork > 0) return <p className="words__hand">The simulated hand is at work.</p>;
  if (offered === 0) return undefined;
  return (
    <p className="words__hand">
      Here <strong>{handName}</strong> does it for you.
    </p>
  );
}
