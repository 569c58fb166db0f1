import { useState } from 'react';
import { ok } from '../../../../shared/basics/result.ts';
import { emptyDraft, type Measure, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { readTool, useTool } from './tool.ts';
import { ToolFields } from './ToolFields.tsx';
import { TypedStage } from './TypedStage.tsx';

/** One number read off a tool that sends nothing: end play, case spread, a fastener's torque, the depth tool. */
export function QuantityScreen(props: CheckProps & { readonly measure: Measure }) {
  const { check, measure } = props;
  const units = useSession((session) => session.units);
  const [draft, setDraft] = useState(() => emptyDraft(measure, units));
  const [tool, setTool, known] = useTool(measure);
  const [tried, setTried] = useState(false);
  const value = readDraft(draft, measure, check.title);
  const how = readTool(tool, measure);
  const read = () => {
    if (!value.ok) return value;
    return how.ok ? ok({ how: how.value, result: { kind: 'quantity' as const, value: value.value } }) : how;
  };
  return (
    <TypedStage
      {...props}
      read={read}
      onRefused={() => setTried(true)}
      touched={draft.text.trim() !== ''}
      keep={`Keep ${check.title.toLowerCase()}`}
    >
      <div className="typed__main typed__wide">
        <QuantityField
          autoFocus
          label={check.title}
          measure={measure}
          draft={draft}
          error={tried && !value.ok ? `${value.problem.sentence} ${value.problem.remedy}` : undefined}
          onChange={setDraft}
        />
      </div>
      <ToolFields
        measure={measure}
        draft={tool}
        known={known}
        problem={tried && !how.ok ? how.problem : undefined}
        onChange={setTool}
      />
    </TypedStage>
  );
}
