import { type Build, currentAssembly } from '../../../../shared/job/records/build.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import type { Heard } from '../../../../shared/job/records/notebook.ts';
import { ok } from '../../../../shared/basics/result.ts';
import {
  type LoadOnRoad,
  loadsOnRoad,
  loadWords,
  type RoadTest,
  roadTestText,
} from '../../../../shared/presentation/words/roadTest.ts';
import { MarkPicture } from '../../../instruments/MarkPicture.tsx';
import { pedalAgain } from '../../../commands/registry.ts';
import { useCommand } from '../../../commands/useCommand.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { useSession } from '../../../stores/session.ts';
import { goToNext } from '../../checks/check/goOn.ts';
import '../../../parts/form.css';
import './roadTest.css';

interface RoadTestDraft {
  readonly distance: string;
  readonly unit: 'km' | 'miles';
  readonly heard: Heard;
  /** Nothing until somebody says it: what nobody said is not written down. */
  readonly when: LoadOnRoad | undefined;
  readonly note: string;
}

/** How far counts as a road test is the shop's business; it has to be a distance. */
function readRoadTest({
  distance,
  unit,
  heard,
  when,
  note,
}: RoadTestDraft): DraftRead<{ readonly heard: Heard; readonly text: string }, FieldErrors<'distance' | 'when'>> {
  const far = Number(distance.replace(',', '.'));
  if (!(far > 0 && far < 10_000)) return wrong({ distance: 'How far it was driven.' });
  if (heard !== 'nothing' && when === undefined) return wrong({ when: 'Say when it was heard.' });
  const road: RoadTest = {
    distance: `${distance.trim()} ${unit}`,
    heard,
    when: when === undefined ? [] : [when],
    note,
  };
  return ok({ heard, text: roadTestText(road) });
}

/** After the build: how far it was driven and what was heard. It is a note, and it decides what comes next. */
export function RoadTestScreen({ build }: { readonly build: Build }) {
  const units = useSession((session) => session.units);
  const held = useHeld<RoadTestDraft>(() => ({
    distance: '',
    unit: units === 'metric' ? 'km' : 'miles',
    heard: 'nothing',
    when: undefined,
    note: '',
  }));
  const { draft, change, errors, submit } = useDraft(held, {
    read: readRoadTest,
    keep: async (note) => {
      const written = await writeDeed({ kind: 'noted', topic: 'road-test', ...note });
      if (written) goToNext();
      return written;
    },
  });
  const quiet = draft.heard === 'nothing';
  const complaint = build.notes.findLast(({ topic }) => topic === 'complaint' || topic === 'noise');
  // "As before" needs something that was heard before.
  const somethingHeard = (): void => change({ heard: complaint === undefined ? 'other' : 'as-before' });
  useCommand(pedalAgain, 'Something was heard', quiet ? somethingHeard : undefined);
  const words = quiet ? 'Nothing was heard' : 'Keep what was heard';
  return (
    <>
      <Stage title="Road test">
        <Form className="form" words={words} submit={submit}>
          <RoadTestFields draft={draft} errors={errors} onChange={change} />
        </Form>
        <AsItLeft build={build} />
      </Stage>
      <Words
        title={quiet ? 'After the first drive' : 'When was it heard'}
        next={{ words, run: submit }}
        others={
          quiet ? (
            <Button keyHint="PgUp" onPress={somethingHeard}>
              Something was heard
            </Button>
          ) : (
            <Button onPress={() => change({ heard: 'nothing' })}>Nothing after all</Button>
          )
        }
      >
        {complaint === undefined ? undefined : <p>The complaint was: {complaint.text}</p>}
        <p>Short and easy at first, with a pause to cool, as the maker says. See that it does not leak or run hot.</p>
        <p className="quiet">The bench cannot know whether the vehicle is fit for the road.</p>
      </Words>
    </>
  );
}

/** The last mark: what was heard under pull or on coast is laid beside its flank. */
function AsItLeft({ build }: { readonly build: Build }) {
  const assembly = currentAssembly(build);
  if (!isDescribed(build) || assembly === undefined) return undefined;
  return (
    <section className="road-test" aria-label="As it left the bench">
      <MarkPicture makeUp={build.makeUp} assembly={assembly} />
    </section>
  );
}

interface FieldsProps {
  readonly draft: RoadTestDraft;
  readonly errors: FieldErrors<'distance' | 'when'>;
  readonly onChange: (change: Partial<RoadTestDraft>) => void;
}

function RoadTestFields({ draft, errors, onChange }: FieldsProps) {
  return (
    <>
      <div className="form__fields form__fields--short">
        <Field
          asked
          autoFocus
          label="After how far"
          inputMode="decimal"
          value={draft.distance}
          error={errors.distance}
          onChange={(distance) => onChange({ distance })}
          beside={
            <Pick
              bare
              joined
              label="Unit of the distance"
              value={draft.unit}
              onChange={(unit) => onChange({ unit })}
              options={[
                { value: 'km', words: 'km' },
                { value: 'miles', words: 'mi' },
              ]}
            />
          }
        />
      </div>
      {draft.heard === 'nothing' ? undefined : (
        <>
          <Choice
            label="What was heard"
            value={draft.heard}
            onChange={(heard) => onChange({ heard })}
            options={heardAs}
          />
          <Choice
            label="When"
            value={draft.when}
            error={errors.when}
            onChange={(when) => onChange({ when })}
            options={loadsOnRoad.map((value) => ({ value, words: capital(loadWords[value]) }))}
          />
        </>
      )}
      <Field label="Note" lines={2} value={draft.note} onChange={(note) => onChange({ note })} />
    </>
  );
}

const heardAs = [
  { value: 'as-before', words: 'The noise as before' },
  { value: 'other', words: 'Another noise' },
] as const;

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
