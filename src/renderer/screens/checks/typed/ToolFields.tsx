import { QuantityField } from '../../../parts/QuantityField.tsx';
import type { Measure } from '../../../parts/quantity.ts';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import type { Problem } from '../../../../shared/basics/result.ts';
import type { ToolDraft } from './tool.ts';

interface ToolFieldsProps {
  readonly measure: Measure;
  readonly draft: ToolDraft;
  readonly known: readonly string[];
  readonly problem: Problem | undefined;
  readonly onChange: (draft: ToolDraft) => void;
}

/** With which tool, and how fine its scale is. */
export function ToolFields({ measure, draft, known, problem, onChange }: ToolFieldsProps) {
  return (
    <>
      <Suggest
        label="Read off"
        value={draft.tool}
        options={asWritten(known)}
        error={problem?.field === 'tool' ? problem.sentence : undefined}
        hint="Micrometer, feeler set, torque wrench …"
        onChange={(tool) => onChange({ ...draft, tool })}
      />
      <QuantityField
        label="Its resolution"
        measure={measure}
        draft={draft.resolution}
        error={problem?.field === 'resolution' ? problem.sentence : undefined}
        hint="The smallest step of its scale."
        onChange={(resolution) => onChange({ ...draft, resolution })}
      />
    </>
  );
}
