import type { ReactNode } from 'react';
import { insideOf, type QuantityTyped } from '../../../../shared/basics/recorded.ts';
import { fail, ok, type Result } from '../../../../shared/basics/result.ts';
import type { How, MeasuredResult } from '../../../../shared/job/records/measurement.ts';
import type { Check } from '../../../../shared/job/checks/checks.ts';
import { implausible } from '../../../../shared/job/checks/plausible.ts';
import { atField, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { emptyDraft, type Measure, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { BoltCircle } from './BoltCircle.tsx';
import { readTool, stepOf, type ToolDraft, toolErrors, usualTool } from './tool.ts';
import { ToolFields } from './ToolFields.tsx';
import { TypedStage } from './TypedStage.tsx';
import { useTypedForm } from './useTypedForm.ts';

interface OneNumber {
  readonly value: QuantityDraft;
  readonly tool: ToolDraft;
}

interface QuantityScreenProps extends CheckProps {
  readonly measure: Measure;
  readonly others?: ReactNode;
  /** What the number comes to, where it is more than a quantity of its own: from the step of the scale it was read off. */
  readonly resultOf?: ResultOf;
  /** What is asked or said besides the number. */
  readonly children?: ReactNode;
}

/** @param step in mm or N·m */
type ResultOf = (value: QuantityTyped, step: number) => MeasuredResult;

const asQuantity: ResultOf = (value) => ({ kind: 'quantity', value });

/** One number read off a tool that sends nothing: end play, case spread, a fastener's torque, the depth tool. */
export function QuantityScreen(props: QuantityScreenProps) {
  const { check, measure, resultOf = asQuantity, children } = props;
  const units = useSession((session) => session.units);
  const { draft, change, errors, submit } = useTypedForm(props, {
    measure,
    start: (): OneNumber => ({ value: emptyDraft(measure, units), tool: usualTool(measure, units) }),
    read: (now) => readOne(now, props, resultOf),
  });
  return (
    <TypedStage
      {...props}
      submit={submit}
      touched={draft.value.text.trim() !== ''}
      keep={`Keep ${check.title.toLowerCase()}`}
      {...(check.id === 'ring-bolt-torque' ? { picture: bolts(props) } : {})}
    >
      <div className="typed__main typed__wide">
        <QuantityField
          autoFocus
          asked
          label={check.title}
          measure={measure}
          draft={draft.value}
          error={errors.value}
          onChange={(value) => change({ value })}
        />
      </div>
      {children}
      <ToolFields measure={measure} draft={draft.tool} errors={errors} onChange={(tool) => change({ tool })} />
    </TypedStage>
  );
}

const bolts = ({ build }: CheckProps): ReactNode => (
  <BoltCircle
    bolts={String(build.makeUp?.ringBolts ?? '')}
    missing="Enter with the axle how many bolts there are: the order of tightening is then drawn here."
  />
);

function readNumber(draft: QuantityDraft, measure: Measure, { id, title }: Check): Result<QuantityTyped> {
  const read = readDraft(draft, measure, title);
  const problem = read.ok ? implausible(id, insideOf(read.value)) : undefined;
  return problem === undefined ? read : fail({ ...problem, field: title });
}

function readOne(
  draft: OneNumber,
  { measure, check }: Pick<QuantityScreenProps, 'measure' | 'check'>,
  resultOf: ResultOf,
) {
  const value = atField('value', readNumber(draft.value, measure, check));
  const how = readTool(draft.tool, measure);
  if (value.ok && how.ok)
    return ok({ how: how.value, result: (by: How): MeasuredResult => resultOf(value.value, stepOf(by)) });
  const errors: FieldErrors<'value' | 'tool' | 'resolution'> = {
    ...(value.ok ? {} : value.errors),
    ...toolErrors(how),
  };
  return wrong(errors);
}
