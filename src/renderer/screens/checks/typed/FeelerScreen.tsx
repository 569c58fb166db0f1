import { useState } from 'react';
import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { fail, ok } from '../../../../shared/basics/result.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { TypedStage } from './TypedStage.tsx';

/** A feeler offered to a joint: it goes in or it does not; its thickness is what the limit is compared with. */
export function FeelerScreen(props: CheckProps) {
  const { build, check } = props;
  const units = useSession((session) => session.units);
  const [thickness, setThickness] = useState<QuantityDraft>(() => {
    const limit = build.specSheet?.limits.find(
      (one) => check.limits.includes(one.quantity) && endsOf(one).max !== undefined,
    );
    return limit?.max === undefined
      ? emptyDraft('length', units)
      : { text: String(limit.max.value), unit: limit.max.unit };
  });
  const [entered, setEntered] = useState<'yes' | 'no'>();
  const [places, setPlaces] = useState<'1' | '2' | '4' | '8'>('4');
  const [tried, setTried] = useState(false);
  const value = readDraft(thickness, 'length', 'Feeler');
  const read = () => {
    if (!value.ok) return value;
    if (entered === undefined)
      return fail({ kind: 'unanswered', sentence: 'Say whether it went in.', remedy: 'Choose one.' });
    const result = {
      kind: 'feeler' as const,
      thickness: value.value,
      entered: entered === 'yes',
      places: Number(places),
    };
    return ok({ how: { kind: 'typed' as const, tool: 'feeler', resolution: value.value }, result });
  };
  return (
    <TypedStage
      {...props}
      read={read}
      onRefused={() => setTried(true)}
      touched={entered !== undefined}
      keep={`Keep ${check.title.toLowerCase()}`}
    >
      <QuantityField
        label="Thickness of the feeler"
        measure="length"
        draft={thickness}
        error={tried && !value.ok ? `${value.problem.sentence} ${value.problem.remedy}` : undefined}
        onChange={setThickness}
      />
      <Choice
        label="Tried at"
        value={places}
        onChange={setPlaces}
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
          value={entered}
          onChange={setEntered}
          error={tried && entered === undefined ? 'Say whether it went in.' : undefined}
          options={[
            { value: 'no', words: 'It does not enter' },
            { value: 'yes', words: 'It enters' },
          ]}
        />
      </div>
    </TypedStage>
  );
}
