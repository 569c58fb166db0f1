import { useEffect, useRef } from 'react';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { emptyDraft, type Measure, symbolOf } from '../../../parts/quantity.ts';
import { useGauges } from '../../../stores/gauges.ts';
import { useSession } from '../../../stores/session.ts';
import { newTool, type ToolDraft, type ToolErrors, toolOf, toolsFor } from './tool.ts';

interface ToolFieldsProps {
  readonly measure: Measure;
  readonly draft: ToolDraft;
  readonly errors: ToolErrors;
  readonly onChange: (draft: ToolDraft) => void;
}

const another = 'another';

/** "Micrometer, 0.001 mm": a tool keeps its own unit, whatever the screen shows. */
const toolWords = ({ label, resolution }: Gauge): string =>
  `${label}, ${resolution.value} ${symbolOf(resolution.unit)}`;

/** With which tool: one tap on one of the shop's, or a new one, which is named once and is the shop's from then on. */
export function ToolFields({ measure, draft, errors, onChange }: ToolFieldsProps) {
  const units = useSession((session) => session.units);
  const gauges = useGauges((seen) => seen.gauges);
  const tools = toolsFor(gauges, measure);
  const choose = (id: string): void => {
    const gauge = tools.find((one) => one.id === id);
    onChange(gauge === undefined ? newTool(measure, units) : toolOf(gauge, measure, units));
  };
  if (tools.length === 0) return <NewTool measure={measure} draft={draft} errors={errors} onChange={onChange} />;
  return (
    <>
      <div className="typed__wide">
        <Choice
          label="Read off"
          value={draft.gauge?.id ?? another}
          onChange={choose}
          options={[
            ...tools.map((gauge) => ({ value: gauge.id, words: toolWords(gauge) })),
            { value: another, words: 'Another tool' },
          ]}
        />
      </div>
      {draft.gauge === undefined ? (
        <NewTool named measure={measure} draft={draft} errors={errors} onChange={onChange} />
      ) : undefined}
    </>
  );
}

/** A tool that is used here for the first time. */
function NewTool({ measure, draft, errors, onChange, named = false }: ToolFieldsProps & { readonly named?: boolean }) {
  useUnitOfTheDay(measure, draft, onChange);
  return (
    <>
      <Field
        label={named ? 'Name of the tool' : 'Read off'}
        value={draft.tool}
        error={errors.tool}
        hint="Dial indicator, micrometer, torque wrench … It is named once."
        onChange={(tool) => onChange({ ...draft, tool })}
      />
      <QuantityField
        label="Its resolution"
        measure={measure}
        draft={draft.resolution}
        error={errors.resolution}
        hint="The smallest step of its scale."
        onChange={(resolution) => onChange({ ...draft, resolution })}
      />
    </>
  );
}

/** Switching between inch and metric takes an empty field along; one that is filled keeps the unit it was typed in. */
function useUnitOfTheDay(measure: Measure, draft: ToolDraft, onChange: ToolFieldsProps['onChange']): void {
  const units = useSession((session) => session.units);
  const before = useRef(units);
  useEffect(() => {
    if (before.current === units) return;
    before.current = units;
    if (draft.resolution.text.trim() === '') onChange({ ...draft, resolution: emptyDraft(measure, units) });
  }, [units, measure, draft, onChange]);
}
