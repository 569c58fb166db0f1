import { useState } from 'react';
import { latest } from '../../../../shared/job/records/build.ts';
import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { ok } from '../../../../shared/basics/result.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { pedalAgain } from '../../../commands/registry.ts';
import { useCommand } from '../../../commands/useCommand.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { atField } from '../../../parts/draft.ts';
import { draftOf, emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface FeelerDraft {
  readonly thickness: QuantityDraft;
  readonly entered: boolean;
  readonly places: '1' | '2' | '4' | '8';
}

/** A feeler offered to a joint: it goes in or it does not; its thickness is what the limit is compared with. */
export function FeelerScreen(props: CheckProps) {
  const { assembly, check } = props;
  const units = useSession((session) => session.units);
  const { draft, change, errors, submit } = useTypedForm(props, {
    start: (): FeelerDraft => ({ thickness: limitOrEmpty(props, units), entered: false, places: '4' }),
    read: readFeeler,
  });
  const [anew, setAnew] = useState(false);
  const answered = latest(assembly, check.id) !== undefined && !anew;
  const enters = (): void => change({ entered: true });
  useCommand(pedalAgain, 'It enters', answered || draft.entered ? undefined : enters);
  const words = draft.entered ? 'Keep that it enters' : 'It does not enter';
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={!answered}
      keep={words}
      answer={{ words, run: submit }}
      others={
        answered ? (
          <Button onPress={() => setAnew(true)}>Try it anew</Button>
        ) : draft.entered ? (
          <Button onPress={() => change({ entered: false })}>It does not enter after all</Button>
        ) : (
          <Button keyHint="PgUp" onPress={enters}>
            It enters
          </Button>
        )
      }
    >
      <QuantityField
        autoFocus={draft.thickness.text === ''}
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
  if (!value.ok) return value;
  const result = { kind: 'feeler' as const, thickness: value.value, entered, places: Number(places) };
  return ok({ how: { kind: 'typed' as const, tool: 'feeler', resolution: value.value }, result });
}
