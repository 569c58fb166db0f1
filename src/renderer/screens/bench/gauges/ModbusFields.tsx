import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Registers } from './Registers.tsx';
import type { LinkFieldsProps } from './linkFieldsProps.ts';

const types = [
  { value: 's16', words: 'Whole, ±, one register' },
  { value: 'u16', words: 'Whole, one register' },
  { value: 's32', words: 'Whole, ±, two registers' },
  { value: 'u32', words: 'Whole, two registers' },
  { value: 'f32', words: 'With a point (float), two registers' },
] as const;

const orders = [
  { value: 'high-first', words: 'The first one' },
  { value: 'low-first', words: 'The second one' },
] as const;

/** Which registers hold the reading, and how a number is made of them. */
export function ModbusFields({ draft, errors, onChange }: LinkFieldsProps) {
  const number = (field: 'unit' | 'register' | 'scale', label: string, hint: string) => (
    <Field
      label={label}
      inputMode={field === 'scale' ? 'decimal' : 'numeric'}
      value={draft[field]}
      error={errors[field]}
      hint={hint}
      onChange={(text) => onChange({ [field]: text })}
    />
  );
  return (
    <>
      {number('unit', 'Unit address', 'Of the gauge on the line, 1 to 247.')}
      {number('register', 'Register', 'Counted from 0. Lists that begin at 1 or 40001 count one more.')}
      <Pick label="Number in it" value={draft.type} options={types} onChange={(type) => onChange({ type })} />
      {draft.type.endsWith('16') ? undefined : (
        <Pick label="Upper half is in" value={draft.order} options={orders} onChange={(order) => onChange({ order })} />
      )}
      {number('scale', 'Scale', 'The number times this is the reading: 0.001 where it counts thousandths.')}
      <Registers draft={draft} onChange={onChange} />
    </>
  );
}
