import { useState } from 'react';
import { latest } from '../../../shared/records/build.ts';
import type { MarkResult } from '../../../shared/records/measurement.ts';
import { Choice } from '../../parts/Choice.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { writeDeed } from '../../stores/notebook.ts';
import { changeSession, useSession } from '../../stores/session.ts';
import type { CheckProps } from '../check/CheckScreen.tsx';
import { goOn } from '../check/goOn.ts';
import { blankMark, type MarkDraft, markAsFound, markDraftOf, markResultOf, readMark } from './draft.ts';
import { FlankControls } from './FlankControls.tsx';
import { FlanksEditor } from './FlanksEditor.tsx';
import './mark.css';

/** The mark on both flanks, drawn by hand as it is seen. */
export function MarkScreen({ build, assembly, check }: CheckProps) {
  const kept = markResultOf(assembly);
  const [draft, setDraft] = useState<MarkDraft>(() => (kept === undefined ? blankMark(assembly) : markDraftOf(kept)));
  const [touched, setTouched] = useState(false);
  const toeAt = useSession((session) => session.toeAt);
  const read = readMark(draft);
  const change = (part: Partial<MarkDraft>): void => {
    setTouched(true);
    setDraft((now) => ({ ...now, ...part }));
  };
  const keep = async (): Promise<void> => {
    if (!read.ok) return;
    if (
      await writeDeed({
        kind: 'measured',
        assembly: assembly.id,
        check: check.id,
        how: { kind: 'seen' },
        result: read.value,
      })
    )
      setTouched(false);
  };
  const found = assembly.phase === 'as-found' ? undefined : markAsFound(build);
  const done = kept !== undefined && !touched;
  return (
    <>
      <Stage
        fill
        title={check.title}
        aside={
          <Choice
            bare
            label="Where the toe lies"
            value={toeAt}
            onChange={(side) => changeSession({ toeAt: side })}
            options={[
              { value: 'left', words: 'Toe left' },
              { value: 'right', words: 'Toe right' },
            ]}
          />
        }
      >
        <FlanksEditor draft={draft} found={found} makeUp={build.makeUp} onChange={change} />
        <FlankControls draft={draft} onChange={change} />
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
      >
        {assembly.phase === 'as-found' ? (
          <p>
            {build.makeUp?.gearSet === 'used'
              ? 'For a used set this mark is the target: the trials must bring it back.'
              : check.how}
          </p>
        ) : (
          <Judgement draft={draft} onChange={change} />
        )}
      </Words>
    </>
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
  readonly onChange: (change: Partial<MarkDraft>) => void;
}) => (
  <Choice
    bare
    label="What the mark asks for"
    value={draft.judgement}
    onChange={(judgement) => onChange({ judgement })}
    options={judgements}
  />
);
