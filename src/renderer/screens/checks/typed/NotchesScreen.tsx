import { notchOf } from '../../../../shared/axle/makeUp.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface Counted {
  readonly ringSide: string;
  readonly oppositeSide: string;
}

/** Notches of both adjusters, counted: where they stood as found, or the preload past zero play. */
export function NotchesScreen(props: CheckProps) {
  const { build, check } = props;
  const units = useSession((session) => session.units);
  const each_mm = build.makeUp === undefined ? undefined : notchOf(build.makeUp);
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): Counted => ({ ringSide: '', oppositeSide: '' }),
    read: (now) => readCounted(now, each_mm),
  });
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={draft.ringSide.trim() !== '' || draft.oppositeSide.trim() !== ''}
      keep={`Keep ${check.title.toLowerCase()}`}
    >
      <Field
        autoFocus
        asked
        label="Ring-gear side, notches"
        inputMode="numeric"
        value={draft.ringSide}
        error={errors.ringSide}
        onChange={(ringSide) => change({ ringSide })}
      />
      <Field
        asked
        label="Opposite side, notches"
        inputMode="numeric"
        value={draft.oppositeSide}
        error={errors.oppositeSide}
        onChange={(oppositeSide) => change({ oppositeSide })}
      />
      <p className="typed__wide quiet">
        {each_mm === undefined
          ? 'What one notch moves is not known yet: the description of the axle takes its thread and notches.'
          : `One notch moves ${showText(each_mm, 'length', units)}.`}
      </p>
    </TypedStage>
  );
}

function readCounted(draft: Counted, each_mm: number | undefined) {
  const [ringSide, oppositeSide] = [countOf(draft.ringSide), countOf(draft.oppositeSide)];
  if (ringSide !== undefined && oppositeSide !== undefined) {
    const known = each_mm === undefined ? {} : { each_mm };
    return ok({
      how: { kind: 'seen' as const },
      result: { kind: 'notches' as const, ringSide, oppositeSide, ...known },
    });
  }
  const errors: FieldErrors<keyof Counted> = {
    ...(ringSide === undefined ? { ringSide: whole } : {}),
    ...(oppositeSide === undefined ? { oppositeSide: whole } : {}),
  };
  return wrong(errors);
}

/** An adjuster stands in a notch or in the next, because its lock fits nowhere between. */
const whole = 'Whole notches: the lock fits nowhere between.';

function countOf(text: string): number | undefined {
  const count = Number(text);
  return text.trim() !== '' && Number.isInteger(count) && count >= 0 && count <= 2000 ? count : undefined;
}
