import { ok } from '../../../../shared/basics/result.ts';
import { readNotebook } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import { type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { ask } from '../../../stores/ask.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { useBuilds } from '../../../stores/builds.ts';
import { go } from '../../../stores/route.ts';
import { changeSession, useSession, workAs } from '../../../stores/session.ts';
import { EarlierPick, noEarlier } from './EarlierPick.tsx';
import { SimulatedBench } from './SimulatedBench.tsx';
import { tryIt } from './tryIt.ts';
import { TakeIn } from './TakeIn.tsx';
import { UnreadableBuilds } from './UnreadableBuilds.tsx';
import { useGoOn } from './useGoOn.ts';
import './builds.css';

interface StartDraft {
  readonly title: string;
  /** The build this axle comes back from, or {@link noEarlier}. */
  readonly earlier: string;
}

/** A build is begun with a name it is known by, and signed by whoever is at the stand. */
function readStart(draft: StartDraft, signedBy: string) {
  const [title, technician] = [draft.title.trim(), signedBy.trim()];
  const errors: FieldErrors<'title' | 'technician'> = {
    ...(title === '' ? { title: 'Give the build a name you will know it by.' } : {}),
    ...(technician === '' ? { technician: 'Every entry is signed with a name.' } : {}),
  };
  if (Object.keys(errors).length > 0) return wrong(errors);
  return ok({ title, technician, ...(draft.earlier === noEarlier ? {} : { comebackOf: draft.earlier }) });
}

/** For whoever wants a number only, or wants to try the bench first; nothing was built before the first build. */
const OtherWays = ({ builds, tries }: { readonly builds: number; readonly tries: boolean }) => (
  <div className="builds__ways">
    <section>
      <h2>Only a number?</h2>
      <p>Plug in, rock or turn, read. Nothing has to be named first, and it can be kept into a build later.</p>
      <Button keyHint="M" onPress={() => go({ at: 'just-measure' })}>
        Just measure
      </Button>
    </section>
    {builds === 0 ? undefined : (
      <section>
        <h2>Built before?</h2>
        <p>Find a build by anything typed into it, its plate or the number on its certificate; see two side by side.</p>
        <Button keyHint="L" onPress={() => go({ at: 'shop' })}>
          Look through all builds
        </Button>
      </section>
    )}
    <TakeIn />
    <SimulatedBench offered={tries} />
    <UnreadableBuilds />
  </div>
);

/** What was described and entered for the axle when it was here before; what was not known then is asked now. */
async function takeOver(earlier: string, build: string, by: string): Promise<boolean> {
  const before = await ask('builds.read', { build: earlier });
  if (before === undefined) return false;
  const { makeUp, specSheet } = readNotebook(before.id, before.entries);
  if (makeUp === undefined || specSheet === undefined) return false;
  const described = await ask('builds.write', { build, by, deed: { kind: 'described', makeUp } });
  return (
    described !== undefined &&
    (await ask('builds.write', { build, by, deed: { kind: 'limits-set', specSheet } })) !== undefined
  );
}

/** A build being begun; started, it leads to the description of its axle. */
function useStartForm(comebackOf: string | undefined) {
  const technician = useSession((session) => session.technician);
  const held = useHeld<StartDraft>(() => ({ title: '', earlier: comebackOf ?? noEarlier }));
  return useDraft(held, {
    read: (now) => readStart(now, technician),
    keep: async (start) => {
      const notebook = await ask('builds.start', start);
      if (notebook === undefined) return false;
      workAs(start.technician);
      const known = start.comebackOf !== undefined && (await takeOver(start.comebackOf, notebook.id, start.technician));
      go(known ? { at: 'assemble', build: notebook.id, phase: 'as-found' } : { at: 'axle', build: notebook.id });
      return true;
    },
  });
}

const tryWords = { words: 'Try it on the simulated axle' } as const;

/** The door: what has been built stands at the side, the next axle is put on the stand here. */
export function BuildsScreen({ comebackOf }: { readonly comebackOf: string | undefined }) {
  const technician = useSession((session) => session.technician);
  const technicians = useSession((session) => session.technicians);
  const builds = useBuilds((seen) => seen.builds) ?? [];
  const here = useBenchSeen((seen) => seen.presence === 'here');
  const { draft, change, errors, submit } = useStartForm(comebackOf);
  const goOn = useGoOn();
  const simulated = useBenchSeen((seen) => seen.about?.simulatedAxle);
  const start = { words: 'Start the build', run: submit, disabled: !here };
  const isUnnamed = draft.title.trim() === '' && comebackOf === undefined;
  // Whoever has begun to name another axle, or comes with one that comes back, wants that one.
  const goesOn = isUnnamed ? goOn : undefined;
  const isFirst = isUnnamed && builds.length === 0;
  const tries =
    isFirst && simulated !== undefined ? { ...tryWords, run: () => void tryIt(simulated), disabled: !here } : undefined;
  return (
    <>
      <Stage title="Put an axle on the stand">
        <Form className="builds__start" words="Start the build" submit={submit}>
          <Field
            asked
            label="What is on the stand"
            value={draft.title}
            onChange={(title) => change({ title })}
            error={errors.title}
            hint="Job number, axle, side: whatever the work order says."
          />
          <Suggest
            label="Technician"
            value={technician}
            options={asWritten(technicians)}
            onChange={(name) => changeSession({ technician: name })}
            error={errors.technician}
          />
          <EarlierPick value={draft.earlier} onChange={(earlier) => change({ earlier })} />
        </Form>
        <OtherWays builds={builds.length} tries={tries !== undefined} />
      </Stage>
      <Words
        title={builds.length === 0 ? 'The first build' : 'Start a build, or go on with one'}
        next={goesOn?.next ?? tries ?? start}
        others={
          goesOn === undefined && tries === undefined ? undefined : (
            <Button onPress={submit} disabled={!here}>
              Start the build
            </Button>
          )
        }
      >
        {goesOn === undefined ? undefined : (
          <p>
            <strong>{goesOn.build.title}</strong> was worked on last.
          </p>
        )}
        <p>A build keeps everything read on one axle, and its certificate. Nothing written in it is lost.</p>
        <p className="quiet">The maker’s manual and local rules go before anything said here.</p>
      </Words>
    </>
  );
}
