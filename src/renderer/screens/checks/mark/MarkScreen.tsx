import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import type { MarkResult } from '../../../../shared/job/records/measurement.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { ToeChoice } from '../../../parts/ToeChoice.tsx';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { usePhotoFolder } from '../../../stores/photos.ts';
import { go } from '../../../stores/route.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOn } from '../check/goOn.ts';
import {
  blankPlace,
  drawnOver,
  type MarkDraft,
  markAsFound,
  markResultOf,
  mostPlaces,
  readFrom,
  readMark,
  type Side,
  type SideDraft,
  sides,
  withSide,
} from './draft.ts';
import { changeMarkDraft, putDraftAway, useMarkDraft } from './draftStore.ts';
import { FlankControls } from './FlankControls.tsx';
import { FlanksEditor } from './FlanksEditor.tsx';
import { firstWord } from './firstWord.ts';
import { MadePanel } from './MadePanel.tsx';
import './mark.css';

/** The mark on both flanks, drawn by hand as it is seen or read off photos, at one to three places round the gear. */
export function MarkScreen({ build, assembly, check }: CheckProps) {
  const { draft, touched } = useMarkDraft(assembly);
  const [place, setPlace] = useState(0);
  const waiting = usePhotoFolder(({ state }) => state?.waiting.length ?? 0);
  const read = readMark(draft, assembly.bearings);
  const change = (side: Side, to: SideDraft): void =>
    changeMarkDraft(assembly, (now) => drawnOver(withSide(now, place, side, to), place, side));
  const keep = async (): Promise<void> => {
    if (!read.ok) return;
    const about = { assembly: assembly.id, check: check.id, how: { kind: 'seen' as const } };
    if (await writeDeed({ kind: 'measured', ...about, result: read.value })) putDraftAway(assembly);
  };
  const photo = (flank: Side): void => {
    const from = readFrom(draft, place, flank)?.photo;
    const open = from === undefined ? {} : { photo: from };
    go({ at: 'photo', build: build.id, assembly: assembly.id, flank, place, ...open });
  };
  const found = assembly.phase === 'as-found' ? undefined : markAsFound(build);
  const done = markResultOf(assembly) !== undefined && !touched;
  const here = draft.places[place] ?? blankPlace;
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={<Aside draft={draft} assembly={assembly} place={place} onPlace={setPlace} />}
      >
        <FlanksEditor
          key={place}
          draft={here}
          found={place === 0 ? found : undefined}
          makeUp={build.makeUp}
          onChange={change}
        />
        <FlankControls draft={here} onChange={change} onPhoto={photo} />
      </Stage>
      <Words
        title={done ? 'Kept in the notebook' : read.ok ? 'What the mark asks for' : read.problem.sentence}
        next={
          done
            ? goOn(build)
            : {
                words: latest(assembly, check.id) === undefined ? 'Keep the mark' : 'Keep the changed mark',
                run: () => void keep(),
                disabled: !read.ok,
              }
        }
        others={
          <>
            <Button onPress={() => go({ at: 'painting', build: build.id, assembly: assembly.id })}>How to paint</Button>
            <Button disabled={!done} onPress={() => go({ at: 'meaning', build: build.id, assembly: assembly.id })}>
              What it means
            </Button>
          </>
        }
      >
        {assembly.phase === 'as-found' ? (
          <p>
            {build.makeUp?.gearSet === 'used'
              ? 'For a used set this mark is the target: the trials must bring it back.'
              : check.how}
          </p>
        ) : (
          <Judgement
            draft={draft}
            onChange={(judgement) => changeMarkDraft(assembly, (now) => ({ ...now, judgement }))}
          />
        )}
        {waiting === 0 ? undefined : (
          <p>{waiting === 1 ? 'A photo has' : `${waiting} photos have`} come from the phone: take it under Photo.</p>
        )}
        <p data-mark="meaning">{firstWord(build, here)}</p>
      </Words>
    </>
  );
}

interface AsideProps {
  readonly assembly: CheckProps['assembly'];
  readonly draft: MarkDraft;
  readonly place: number;
  readonly onPlace: (place: number) => void;
}

/** How the mark was made, which place round the gear is seen, and where the toe lies for whoever stands there. */
function Aside({ draft, assembly, place, onPlace }: AsideProps) {
  const drawn = (n: number): boolean => sides.some((side) => draft.places[n]?.[side] !== undefined);
  return (
    <div className="mark-aside">
      <MadePanel
        made={draft.made}
        onChange={(made) => changeMarkDraft(assembly, (now) => ({ ...now, made }))}
        note={draft.note}
        onNote={(note) => changeMarkDraft(assembly, (now) => ({ ...now, note }))}
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

const judgements: readonly { readonly value: MarkResult['judgement']; readonly words: string }[] = [
  { value: 'accepted', words: 'Accept it' },
  { value: 'change', words: 'Change shims' },
  { value: 'recorded', words: 'Only record it' },
];

const Judgement = ({
  draft,
  onChange,
}: {
  readonly draft: MarkDraft;
  readonly onChange: (judgement: MarkResult['judgement']) => void;
}) => <Choice bare label="What the mark asks for" value={draft.judgement} onChange={onChange} options={judgements} />;
