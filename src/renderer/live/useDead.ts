import { useEffect, useState } from 'react';
import { ageOf, slotOf } from './slots.ts';

/** How often it is looked, in milliseconds. */
const lookEvery_ms = 150;

/** Whether a gauge that sent by itself has fallen silent; the bench needs longer to be sure of it than a reader of digits. */
export function useDead(gauge: string): boolean {
  const [dead, setDead] = useState(false);
  useEffect(() => {
    const look = (): void => setDead(ageOf(slotOf(gauge), performance.now()) === 'dead');
    look();
    const looking = setInterval(look, lookEvery_ms);
    return () => clearInterval(looking);
  }, [gauge]);
  return dead;
}
