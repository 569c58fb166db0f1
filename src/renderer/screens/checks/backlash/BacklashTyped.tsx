import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { directions, places } from '../stem/backlashStem.ts';
import { usualTool } from '../typed/tool.ts';
import { ToolFields } from '../typed/ToolFields.tsx';
import { TypedStage } from '../typed/TypedStage.tsx';
import { useTypedForm } from '../typed/useTypedForm.ts';
import { stationCounts } from './BacklashSetUp.tsx';
import { type BacklashDraft, type BacklashErrors, blankBacklash, readBacklash, withStations } from './typedDraft.ts';
import { usualSettings } from './useBacklashSettings.ts';

/** A backlash read off a dial that sends nothing: one number a station. */
export function BacklashTyped({ onListen, ...props }: CheckProps & { readonly onListen: () => void }) {
  const units = useSession((session) => session.units);
  const { draft, change, errors, submit } = useTypedForm(props, {
    measure: 'dial',
    start: () => blankBacklash(usualSettings(props.build), usualTool('dial', units), units),
    read: readBacklash,
  });
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={draft.stations.some((text) => text.trim() !== '')}
      keep="Keep backlash"
      others={<Button onPress={onListen}>By the indicator</Button>}
    >
      <Stations draft={draft} errors={errors} onChange={change} />
      <p className="typed__wide quiet">
        A station that was not read is left empty. Each is read once off a dial: its doubt is the step of the scale
        alone.
      </p>
      <ToolFields measure="dial" draft={draft.tool} errors={errors} onChange={(tool) => change({ tool })} />
      <Felt draft={draft} errors={errors} onChange={change} />
    </TypedStage>
  );
}

interface FieldsProps {
  readonly draft: BacklashDraft;
  readonly errors: BacklashErrors;
  readonly onChange: (change: Partial<BacklashDraft>) => void;
}

/** One dial has one unit: changed at one station, it is changed at all. */
function Stations({ draft, errors, onChange }: FieldsProps) {
  const { stations, unit } = draft;
  const numbered = stations.map((text, index) => ({ number: index + 1, text }));
  return (
    <>
      {numbered.map(({ number, text }) => (
        <QuantityField
          key={number}
          autoFocus={number === 1}
          asked={number === 1}
          label={`Station ${number}`}
          measure="dial"
          draft={{ text, unit }}
          error={errors.stations?.[number]}
          onChange={(now) => onChange({ stations: stations.with(number - 1, now.text), unit: now.unit })}
        />
      ))}
    </>
  );
}

/** How many stations, and which way and where the stem stood, as for a gauge that sends. */
const Felt = ({ draft, errors, onChange }: FieldsProps) => (
  <>
    <Pick
      label="Stations round the gear"
      value={String(draft.stations.length)}
      onChange={(count) => onChange({ stations: withStations(draft, Number(count)) })}
      options={stationCounts.map((count) => ({ value: count, words: `${count} stations` }))}
    />
    <Pick
      label="Direction"
      value={draft.direction}
      onChange={(direction) => onChange({ direction })}
      options={directions}
    />
    <Pick label="Place" value={draft.place} onChange={(place) => onChange({ place })} options={places} />
    {draft.place === 'heel' ? undefined : (
      <Field
        label="Radius, mm"
        inputMode="decimal"
        value={draft.radius}
        error={errors.radius}
        onChange={(radius) => onChange({ radius })}
      />
    )}
  </>
);
