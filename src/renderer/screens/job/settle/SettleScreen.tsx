import { ok } from '../../../../shared/basics/result.ts';
import { assemblyName, type Build } from '../../../../shared/job/records/build.ts';
import type { CheckId } from '../../../../shared/job/records/checkIds.ts';
import { type CheckState, isDescribed, readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { RingPicture } from '../../../instruments/RingPicture.tsx';
import { Button } from '../../../parts/Button.tsx';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { limitBasisWords, limitWords, quantityWords } from '../../../../shared/presentation/words/limits.ts';
import { shapeOf, standingSentence } from '../../../../shared/presentation/words/standing.ts';
import { movingFor, MovingWords } from './MovingWords.tsx';
import '../build/build.css';
import './settle.css';

interface SettleScreenProps {
  readonly build: Build;
  readonly assembly: string;
  readonly check: CheckId;
}

/** Shorter than this nobody can tell later what was meant (own choice). */
const fewestLetters = 3;

const readReason = ({ reason }: { readonly reason: string }): DraftRead<string, FieldErrors<'reason'>> =>
  reason.trim().length < fewestLetters ? wrong({ reason: 'Say why.' }) : ok(reason.trim());

/** What has a place round the gear is shown there, beside the reason. */
const roundTheGear: ReadonlySet<CheckId> = new Set(['backlash', 'ring-gear-runout']);

/** The reason as it is being written; kept, it leads back to the stand. */
const useOverride = (build: string, assembly: string, check: CheckId) =>
  useDraft(
    useHeld(() => ({ reason: '' })),
    {
      read: readReason,
      keep: async (reason) => {
        const written = await writeDeed({ kind: 'overridden', assembly, check, reason });
        if (written) go({ at: 'build', build, assembly });
        return written;
      },
    },
  );

/** One thing that stands in the way: take it anew, or let it through with a reason that is kept. */
export function SettleScreen({ build, assembly: id, check }: SettleScreenProps) {
  const units = useSession((session) => session.units);
  const { draft, change, errors, submit } = useOverride(build.id, id, check);
  const assembly = build.assemblies.find((one) => one.id === id);
  const state =
    assembly === undefined || !isDescribed(build)
      ? undefined
      : readinessOf(build, assembly).states.find((one) => one.check.id === check);
  if (assembly === undefined || state === undefined) return <Gone build={build} />;
  const takeAgain = {
    words: state.measurement === undefined ? 'Take it now' : 'Take it anew',
    run: () => go({ at: 'check', build: build.id, assembly: id, check, anew: state.measurement?.id }),
  };
  const move = isDescribed(build) ? movingFor(build, assembly, state) : undefined;
  return (
    <>
      <Stage title={`${state.check.title}, ${assemblyName(assembly).toLowerCase()}`}>
        <div className="settle">
          <div className="settle__words">
            <Standing state={state} />
            <Field
              label="Reason to let it through"
              lines={3}
              value={draft.reason}
              error={errors.reason}
              onChange={(reason) => change({ reason })}
              hint="It stands on the certificate, with your name."
            />
          </div>
          {isDescribed(build) && roundTheGear.has(check) && state.measurement !== undefined ? (
            <RingPicture build={build} assembly={assembly} />
          ) : undefined}
        </div>
      </Stage>
      <Words
        title={move === undefined ? 'Two ways out' : 'Three ways out'}
        next={move?.ok === true ? move.value.next(units) : takeAgain}
        others={
          <>
            {move?.ok === true ? <Button onPress={takeAgain.run}>{takeAgain.words}</Button> : undefined}
            <Button onPress={submit} disabled={draft.reason.trim().length < fewestLetters}>
              Override with this reason
            </Button>
          </>
        }
      >
        {move === undefined ? <p>{state.check.how}</p> : <MovingWords move={move} />}
        <p className="quiet">An override lets the job go on. It does not change the reading or its verdict.</p>
      </Words>
    </>
  );
}

/** Where the check stands now, and every limit it was held against. */
function Standing({ state }: { readonly state: CheckState }) {
  const units = useSession((session) => session.units);
  return (
    <>
      <p className="settle__standing">
        <StateMark shape={shapeOf(state)} size={34} />
        {standingSentence(state, state.measurement, units)}
      </p>
      {state.limits.map((judged) => (
        <p key={`${judged.quantity} ${limitBasisWords(judged.limit)}`} className="quiet">
          {quantityWords[judged.quantity]}: {limitWords(judged.limit, units)}
          {limitBasisWords(judged.limit) === '' ? '' : `, ${limitBasisWords(judged.limit)}`}, from {judged.limit.source}
          .
        </p>
      ))}
    </>
  );
}

const Gone = ({ build }: { readonly build: Build }) => (
  <>
    <Stage title="Not there any more">
      <p>This assembly was struck through, or the step is no longer asked.</p>
    </Stage>
    <Words
      title="Nothing is lost"
      next={{ words: 'Back to the stand', run: () => go({ at: 'build', build: build.id }) }}
    >
      <p>The struck lines stay readable in the notebook.</p>
    </Words>
  </>
);
