import { useState } from 'react';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';

/** Ends the bench behind this page, where nothing else does: one that is started from a menu has no terminal. */
export function EndBench() {
  const mayEnd = useBenchSeen((seen) => seen.about?.mayEnd === true);
  const [asked, setAsked] = useState(false);
  if (!mayEnd) return undefined;
  if (!asked) return <Button onPress={() => setAsked(true)}>End the bench</Button>;
  return (
    <div className="sheet__end" role="group" aria-label="End the bench">
      <p>After that no gauge is read. What was recorded is kept.</p>
      <Button onPress={() => void ask('bench.end', {})}>End it now</Button>
      <Button onPress={() => setAsked(false)}>Go on</Button>
    </div>
  );
}
