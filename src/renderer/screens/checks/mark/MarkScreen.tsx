import { useState } from 'react';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useDraft } from '../../../parts/useDraft.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOnAfter } from '../check/goOn.ts';
import {
  blankPlace,
  drawnOver,
  markAsFound,
  readFrom,
  readMark,
  type FlankSide,
  type SideDraft,
  withSide,
} from './draft.ts';
import { changeMarkDraft, putDraftAway, useMarkDraft } from './draftStore.ts';
import { FlankControls } from './FlankControls.tsx';
import { FlanksEditor } from './FlanksEditor.tsx';
import { MarkAside } from './MarkAside.tsx';
import { MarkWords } from './MarkWords.tsx';
import './mark.css';

/** The mark on both flanks, drawn by hand as it is seen or read off photos, at one to three places round the gear. */
export function MarkScreen({ build, assembly, check }: CheckProps) {
  const [place, setPlace] = useState(0);
  const form = useMarkForm(assembly, check.id);
  const { draft } = form;
  const draw = (side: FlankSide, to: SideDraft): void =>
    changeMarkDraft(assembly, (now) => drawnOver(withSide(now, place, side, to), place, side));
  const photo = (flank: FlankSide): void => {
    const from = readFrom(draft, place, flank)?.photo;
    const open = from === undefined ? {} : { photo: from };
    go({ at: 'photo', build: build.id, assembly: assembly.id, flank, place, ...open });
  };
  const found = place > 0 || assembly.phase === 'as-found' ? undefined : markAsFound(build);
  const here = draft.places[place] ?? blankPlace;
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={<MarkAside draft={draft} change={form.change} place={place} onPlace={setPlace} />}
      >
        <FlanksEditor key={place} draft={here} found={found} makeUp={build.makeUp} onChange={draw} />
        <FlankControls draft={here} onChange={draw} onPhoto={photo} />
      </Stage>
      <MarkWords build={build} assembly={assembly} check={check} form={form} place={place} />
    </>
  );
}

/** The mark as it is being read; its draft outlives the screen until it is kept. */
const useMarkForm = (assembly: CheckProps['assembly'], check: CheckId) =>
  useDraft(useMarkDraft(assembly), {
    read: (draft) => readMark(draft, assembly.bearings),
    keep: async (result) => {
      const written = await writeDeed({
        kind: 'measured',
        assembly: assembly.id,
        check,
        how: { kind: 'seen' },
        result,
      });
      if (written) {
        putDraftAway(assembly);
        goOnAfter(assembly.id, check);
      }
      return written;
    },
  });
