import type { Assembly } from '../../../../shared/job/records/build.ts';
import { blobOf } from '../../../photos/bytes.ts';
import { Button } from '../../../parts/Button.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { assembledAs } from '../check/SimulatedHand.tsx';

interface SimulatedPhotoProps {
  readonly assembly: Assembly;
  readonly side: 'drive' | 'coast';
  readonly onTaken: (file: Blob) => void;
}

/** On the simulated bench only: a photo of the twin's teeth, painted and rolled. */
export function SimulatedPhoto({ assembly, side, onTaken }: SimulatedPhotoProps) {
  const simulated = useBenchSeen((seen) => seen.about?.simulated);
  if (simulated !== true) return undefined;
  const take = async (): Promise<void> => {
    const taken = await ask('bench.photo', { on: assembledAs(assembly), side });
    if (taken !== undefined) onTaken(blobOf(taken.jpeg_base64, 'image/jpeg'));
  };
  return <Button onPress={() => void take()}>Photograph the simulated axle</Button>;
}
