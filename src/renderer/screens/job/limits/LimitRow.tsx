import { useEffect, useRef, useState } from 'react';
import { Input, TextField } from 'react-aria-components';
import { Button } from '../../../parts/Button.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { unitOptions } from '../../../parts/quantity.ts';
import { quantityWords } from '../../../../shared/presentation/words/limits.ts';
import { backlashBasisOptions, isRadius, torqueBasisOptions } from './basis.ts';
import { basisOf, isBlank, type LimitDraft, type LimitErrors, type LimitField, measureOf } from './draft.ts';

interface LimitRowProps {
  readonly row: LimitDraft;
  readonly errors: LimitErrors;
  /** The source of the lines above, taken over when this line gets its first number. */
  readonly sourceBefore: string;
  readonly onChange: (row: LimitDraft) => void;
  /** Adds a line for the same quantity in another state; absent where one state is all there is. */
  readonly onAnother: (() => void) | undefined;
}

/** One limit on one line. */
export function LimitRow({ row, errors, sourceBefore, onChange, onAnother }: LimitRowProps) {
  const name = quantityWords[row.quantity];
  const end = (field: 'min' | 'max', text: string): void => {
    const first = isBlank(row) && row.source === '';
    onChange({ ...row, [field]: text, ...(first ? { source: sourceBefore } : {}) });
  };
  return (
    <div className="limit-row" data-quantity={row.quantity}>
      <span className="limit-row__name">{name}</span>
      <Cell label={`${name}, lower`} value={row.min} bad={errors.min} decimal onChange={(text) => end('min', text)} />
      <Cell label={`${name}, upper`} value={row.max} bad={errors.max} decimal onChange={(text) => end('max', text)} />
      <Pick
        bare
        label={`${name}, unit`}
        options={unitOptions(measureOf(row.quantity))}
        value={row.unit}
        onChange={(unit) => onChange({ ...row, unit })}
      />
      <BasisCell row={row} bad={errors.basis} onChange={onChange} onAnother={onAnother} />
      <SourceCell row={row} bad={errors.source} before={sourceBefore} onChange={onChange} />
      <RowErrors errors={errors} />
    </div>
  );
}

interface CellProps {
  readonly label: string;
  readonly value: string;
  readonly bad: string | undefined;
  readonly decimal?: boolean;
  readonly onChange: (text: string) => void;
}

const Cell = ({ label, value, bad, decimal = false, onChange }: CellProps) => (
  <TextField className="field" aria-label={label} value={value} onChange={onChange} isInvalid={bad !== undefined}>
    <Input className="field__input" autoComplete="off" {...(decimal ? { inputMode: 'decimal' as const } : {})} />
  </TextField>
);

interface SourceCellProps {
  readonly row: LimitDraft;
  readonly bad: string | undefined;
  readonly before: string;
  readonly onChange: (row: LimitDraft) => void;
}

/** Where a limit comes from: in full where it is first said, else that it is the same, until somebody goes there. */
function SourceCell({ row, bad, before, onChange }: SourceCellProps) {
  const [here, setHere] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  // A mouse sets its caret after the focus: whoever comes to say another source writes over this one.
  useEffect(() => {
    if (!here) return undefined;
    const soon = requestAnimationFrame(() => input.current?.select());
    return () => cancelAnimationFrame(soon);
  }, [here]);
  const same = row.source !== '' && row.source === before && bad === undefined;
  return (
    <TextField
      className={`field limit-row__source${row.source !== '' && !same ? ' limit-row__source--own' : ''}`}
      aria-label={`${quantityWords[row.quantity]}, where it comes from`}
      value={same && !here ? '' : row.source}
      onChange={(source) => onChange({ ...row, source })}
      onFocusChange={setHere}
      isInvalid={bad !== undefined}
    >
      <Input ref={input} className="field__input" autoComplete="off" {...(same ? { placeholder: 'as above' } : {})} />
    </TextField>
  );
}

interface BasisCellProps {
  readonly row: LimitDraft;
  readonly bad: string | undefined;
  readonly onChange: (row: LimitDraft) => void;
  readonly onAnother: (() => void) | undefined;
}

function BasisCell({ row, bad, onChange, onAnother }: BasisCellProps) {
  const kind = basisOf(row.quantity);
  if (kind === undefined) return <span />;
  const name = quantityWords[row.quantity];
  return (
    <span className={`limit-row__basis${bad === undefined ? '' : ' limit-row__basis--bad'}`}>
      <Pick
        bare
        label={`${name}, basis`}
        options={kind === 'backlash' ? backlashBasisOptions : torqueBasisOptions}
        value={row.basis === '' ? undefined : row.basis}
        onChange={(basis) => onChange({ ...row, basis })}
        placeholder={kind === 'backlash' ? 'How it is felt' : 'In which state'}
      />
      {isRadius(row.basis) ? (
        <Cell
          label={`${name}, radius in mm`}
          value={row.radius}
          bad={undefined}
          decimal
          onChange={(radius) => onChange({ ...row, radius })}
        />
      ) : undefined}
      {kind === 'torque' && onAnother !== undefined ? (
        <Button look="quiet" onPress={onAnother} more={`another state for ${name}`}>
          +
        </Button>
      ) : undefined}
    </span>
  );
}

const order: readonly LimitField[] = ['min', 'max', 'basis', 'radius', 'source'];

function RowErrors({ errors }: { readonly errors: LimitErrors }) {
  const sentences = order.flatMap((field) => errors[field] ?? []);
  return sentences.length === 0 ? undefined : (
    <p className="limit-row__errors" role="alert">
      {sentences.join(' ')}
    </p>
  );
}
