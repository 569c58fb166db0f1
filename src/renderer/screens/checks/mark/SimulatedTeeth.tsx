import type { Assembly } from '../../../../shared/job/records/build.ts';
import { HandButton } from '../../../parts/HandButton.tsx';
import { ask } from '../../../stores/ask.ts';
import { assembledAs } from '../check/SimulatedHand.tsx';
import { drawnOver, sides, withSide } from './draft.ts';
import { changeMarkDraft } from './draftStore.ts';

interface SimulatedTeethProps {
  readonly assembly: Assembly;
  readonly place: number;
}

/** On the simulated bench only: paints the twin's teeth, rolls them, and draws what the compound shows. */
export function SimulatedTeeth({ assembly, place }: SimulatedTeethProps) {
  const roll = async (): Promise<void> => {
    const seen = await ask('bench.teeth', { on: assembledAs(assembly) });
    if (seen === undefined) return;
    for (const side of sides)
      changeMarkDraft(assembly, (now) => drawnOver(withSide(now, place, side, seen[side]), place, side));
  };
  return <HandButton move={roll} />;
}
