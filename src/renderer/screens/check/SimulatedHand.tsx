import type { HandAction } from '../../../shared/contract/bench.ts';
import { Button } from '../../parts/Button.tsx';
import { ask } from '../../stores/ask.ts';
import { useBenchSeen } from '../../stores/bench.ts';

/** On the simulated bench only: lets the simulated hand do what the technician's would. */
export function SimulatedHand({ action, words }: { readonly action: HandAction; readonly words: string }) {
  const simulated = useBenchSeen((seen) => seen.about?.simulated);
  return simulated === true ? <Button onPress={() => void ask('bench.hand', { action })}>{words}</Button> : undefined;
}
