import { useEffect, useState } from 'react';
import { slotOf } from '../live/slots.ts';

/** How old the last reading is. Under a second it is "now": a tenth more or less helps nobody. */
export function LiveAge({ gauge }: { readonly gauge: string }) {
  const [words, setWords] = useState('');
  useEffect(() => {
    const look = (): void => setWords(ageWords(slotOf(gauge).heardAt, performance.now()));
    look();
    const looking = setInterval(look, 500);
    return () => clearInterval(looking);
  }, [gauge]);
  return <>{words}</>;
}

function ageWords(heardAt: number, now: number): string {
  if (heardAt === 0) return 'no reading';
  const seconds = Math.floor((now - heardAt) / 1000);
  if (seconds < 1) return 'now';
  return seconds < 90 ? `${seconds} s ago` : `${Math.round(seconds / 60)} min ago`;
}
