import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { ok } from '../../../../shared/basics/result.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { atField, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { draftOf, emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface FeelerDraft {
  readonly thickness: QuantityDraft;
  readonly entered: 'yes' | 'no' | undefined;
  readonly places: '1' | '2' | '4' | '8';
}

/** A feeler offered to a joint: it goes in or it does not; its thickness is what the limit is compared with. */
export function FeelerScreen(props: CheckProps) {
  const { check } = props;
  const units = useSession((session) => session.units);
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): FeelerDraft => ({ thickness: limitOrEmpty(props, units), entered: undefined, places: '4' }),
    read: readFeeler,
  });
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={draft.entered !== undefined}
      keep={`Keep ${check.title.toLowerCase()}`}
    >
      <QuantityField
        label="Thickness of the feeler"
        measure="length"
        draft={draft.thickness}
        error={errors.thickness}
        onChange={(thickness) => change({ thickness })}
      />
      <Choice
        label="Tried at"
        value={draft.places}
        onChange={(places) => change({ places })}
        options={[
          { value: '1', words: '1 place' },
          { value: '2', words: '2' },
          { value: '4', words: '4' },
          { value: '8', words: '8' },
        ]}
      />
      <div className="typed__wide">
        <Choice
          label="Did it go in anywhere"
          value={draft.entered}
          onChange={(entered) => change({ entered })}
          error={errors.entered}
          options={[
            { value: 'no', words: 'It does not enter' },
            { value: 'yes', words: 'It enters' },
          ]}
        />
      </div>
    </TypedStage>
  );
}

/** The feeler that decides is as thick as the limit. */
function limitOrEmpty({ build, check }: CheckProps, units: UnitSystem): QuantityDraft {
  const limit = build.specSheet?.limits.find(
    (one) => check.limits.includes(one.quantity) && endsOf(one).max !== undefined,
  );
  return limit?.max === undefined ? emptyDraft('length', units) : draftOf(limit.max);
}

function readFeeler({ thickness, entered, places }: FeelerDraft) {
  const value = atField('thickness', readDraft(thickness, 'length', 'Feeler'));
  if (value.ok && entered !== undefined) {
    const result = {
      kind: 'feeler' as const,
      thickness: value.value,
      entered: entered === 'yes',
      places: Number(places),
    };
    return ok({ how: { kind: 'typed' as const, tool: 'feeler', resolution: value.value }, result });
  }
  const errors: FieldErrors<'thickness' | 'entered'> = {
    ...(value.ok ? {} : value.errors),
    ...(entered === undefined ? { entered: 'Say whether it went in.' } : {}),
  };
  return wrong(errors);
}
