import { Pick } from '../../../parts/Pick.tsx';
import { ToeChoice } from '../../../parts/ToeChoice.tsx';
import type { HeldDraft } from '../../../parts/useDraft.ts';
import { type MarkDraft, mostPlaces, sides } from './draft.ts';
import { MadePanel } from './MadePanel.tsx';

interface MarkAsideProps {
  readonly draft: MarkDraft;
  readonly change: HeldDraft<MarkDraft>['change'];
  readonly place: number;
  readonly onPlace: (place: number) => void;
}

/** How the mark was made, which place round the gear is seen, and where the toe lies for whoever stands there. */
export function MarkAside({ draft, change, place, onPlace }: MarkAsideProps) {
  const drawn = (n: number): boolean => sides.some((side) => draft.places[n]?.[side] !== undefined);
  return (
    <div className="mark-aside">
      <MadePanel
        made={draft.made}
        onChange={(made) => change({ made })}
        note={draft.note}
        onNote={(note) => change({ note })}
      />
      <Pick
        bare
        label="Place round the gear"
        value={String(place)}
        onChange={(chosen) => onPlace(Number(chosen))}
        options={Array.from({ length: mostPlaces }, (_, n) => ({
          value: String(n),
          words: `Place ${n + 1}${n === 0 || drawn(n) ? '' : ', not read'}`,
        }))}
      />
      <ToeChoice />
    </div>
  );
}
