import { QuantityField } from '../../../parts/QuantityField.tsx';
import type { Measure } from '../../../parts/quantity.ts';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import { useGauges } from '../../../stores/gauges.ts';
import { rememberTool, type ToolDraft, type ToolErrors, withTool } from './tool.ts';

interface ToolFieldsProps {
  readonly measure: Measure;
  readonly draft: ToolDraft;
  readonly errors: ToolErrors;
  readonly onChange: (draft: ToolDraft) => void;
}

/** With which tool, and how fine its scale is. */
export function ToolFields({ measure, draft, errors, onChange }: ToolFieldsProps) {
  const entered = useGauges(({ gauges }) => gauges)?.filter((gauge) => gauge.kind === 'typed') ?? [];
  const change = (next: ToolDraft): void => {
    rememberTool(measure, next);
    onChange(next);
  };
  return (
    <>
      <Suggest
        label="Read off"
        value={draft.tool}
        options={asWritten(entered.map((gauge) => gauge.label))}
        error={errors.tool}
        hint="Micrometer, feeler set, torque wrench …"
        onChange={(tool) => change(withTool(draft, tool, entered))}
      />
      <QuantityField
        label="Its resolution"
        measure={measure}
        draft={draft.resolution}
        error={errors.resolution}
        hint="The smallest step of its scale."
        onChange={(resolution) => change({ ...draft, resolution })}
      />
    </>
  );
}
