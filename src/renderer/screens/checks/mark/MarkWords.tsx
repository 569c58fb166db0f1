import { latest } from '../../../../shared/job/records/build.ts';
import type { MarkResult } from '../../../../shared/job/records/measurement.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import type { DraftForm } from '../../../parts/useDraft.ts';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { usePhotoFolder } from '../../../stores/photos.ts';
import { go } from '../../../stores/route.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOn } from '../check/goOn.ts';
import { blankPlace, type MarkDraft, type MarkErrors, markResultOf } from './draft.ts';
import { firstAnswer, firstWord } from './firstWord.ts';
import { SimulatedTeeth } from './SimulatedTeeth.tsx';

interface MarkWordsProps extends CheckProps {
  readonly form: DraftForm<MarkDraft, MarkResult, MarkErrors>;
  /** The place round the gear that is seen. */
  readonly place: number;
}

/** What the mark asks for, and the way on. */
export function MarkWords({ form, place, ...props }: MarkWordsProps) {
  const { build, assembly, check } = props;
  const { draft, change, read, touched } = form;
  const done = markResultOf(assembly) !== undefined && !touched;
  return (
    <Words
      title={done ? 'Kept in the notebook' : read.ok ? 'What the mark asks for' : read.errors.mark}
      next={done ? goOn(build) : keepOf(props, form)}
      others={
        <>
          <SimulatedTeeth assembly={assembly} place={place} />
          <Button onPress={() => go({ at: 'painting', build: build.id, assembly: assembly.id })}>How to paint</Button>
          {done ? (
            <Button onPress={() => go({ at: 'meaning', build: build.id, assembly: assembly.id })}>What it means</Button>
          ) : undefined}
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
        <Choice
          bare
          label="What the mark asks for"
          value={draft.judgement}
          onChange={(judgement) => change({ judgement })}
          options={judgements}
        />
      )}
      <PhotosWaiting />
      <p data-mark="meaning">
        {firstWord(build, draft.places[place] ?? blankPlace)}{' '}
        {done ? undefined : <strong>{firstAnswer(build, assembly, draft.places[place] ?? blankPlace)}</strong>}
      </p>
    </Words>
  );
}

const judgements: readonly Option<MarkResult['judgement']>[] = [
  { value: 'accepted', words: 'Accept it' },
  { value: 'change', words: 'Change shims' },
  { value: 'recorded', words: 'Only record it' },
];

const keepOf = ({ assembly, check }: CheckProps, { submit, read }: MarkWordsProps['form']): NextAction => ({
  words: latest(assembly, check.id) === undefined ? 'Keep the mark' : 'Keep the changed mark',
  run: submit,
  disabled: !read.ok,
});

function PhotosWaiting() {
  const waiting = usePhotoFolder(({ state }) => state?.waiting.length ?? 0);
  if (waiting === 0) return undefined;
  return <p>{waiting === 1 ? 'A photo has' : `${waiting} photos have`} come from the phone: take it under Photo.</p>;
}
