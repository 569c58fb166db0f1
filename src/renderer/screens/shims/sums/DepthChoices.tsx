import type { HeadFace } from '../../../../shared/axle/arithmetic/depthTool.ts';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import type { DepthDraft } from './depthDraft.ts';

const faces: readonly Option<HeadFace>[] = [
  { value: 'front', words: 'Front of the head' },
  { value: 'back', words: 'Its bearing seat' },
];

interface DepthChoicesProps {
  readonly draft: DepthDraft;
  /** Whether this way measures a distance, which needs its two ends named. */
  readonly distances: boolean;
  readonly onChange: (change: Partial<DepthDraft>) => void;
}

/** What no reading can say: which way + counts, and between which faces a distance goes. */
export const DepthChoices = ({ draft, distances, onChange }: DepthChoicesProps) => (
  <>
    <Choice
      label="A mark with + means that this pinion runs best"
      value={draft.plusMeans}
      onChange={(plusMeans) => onChange({ plusMeans })}
      options={[
        { value: 'further out', words: 'Further out' },
        { value: 'deeper', words: 'Deeper' },
      ]}
    />
    {distances ? (
      <>
        <Choice
          label="Measured to"
          value={draft.measuredTo}
          onChange={(measuredTo) => onChange({ measuredTo })}
          options={faces}
        />
        <Choice
          label="Nominal distance to"
          value={draft.wantedTo}
          onChange={(wantedTo) => onChange({ wantedTo })}
          options={faces}
        />
      </>
    ) : undefined}
  </>
);
