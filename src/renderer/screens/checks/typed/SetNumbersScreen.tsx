import { ok } from '../../../../shared/basics/result.ts';
import { type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface SetNumbers {
  readonly pinion: string;
  readonly ringGear: string;
}

/** The set numbers cut on both gears; a set is replaced only as a pair. */
export function SetNumbersScreen(props: CheckProps) {
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): SetNumbers => ({ pinion: '', ringGear: '' }),
    read: readNumbers,
  });
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={draft.pinion.trim() !== '' || draft.ringGear.trim() !== ''}
      keep="Keep the set numbers"
    >
      <Field
        autoFocus
        asked
        label="On the pinion head"
        value={draft.pinion}
        error={errors.pinion}
        onChange={(pinion) => change({ pinion })}
      />
      <Field
        asked
        label="On the ring gear"
        value={draft.ringGear}
        error={errors.ringGear}
        onChange={(ringGear) => change({ ringGear })}
      />
    </TypedStage>
  );
}

const missing = 'Type it exactly as it is cut.';

function readNumbers(draft: SetNumbers) {
  const [pinion, ringGear] = [draft.pinion.trim(), draft.ringGear.trim()];
  const errors: FieldErrors<keyof SetNumbers> = {
    ...(pinion === '' ? { pinion: missing } : {}),
    ...(ringGear === '' ? { ringGear: missing } : {}),
  };
  if (Object.keys(errors).length > 0) return wrong(errors);
  return ok({ how: { kind: 'seen' as const }, result: { kind: 'set-numbers' as const, pinion, ringGear } });
}
