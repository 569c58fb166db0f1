import { insideOf, type QuantityTyped, torqueTypedSchema } from '../../../../shared/basics/recorded.ts';
import { Field } from '../../../parts/Field.tsx';
import { type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { numberTyped } from '../stem/numbers.ts';
import type { NutSaid } from './steps.ts';

/** What was done to the nut in this step, as typed; both may stay empty. */
export interface NutDraft {
  readonly turn: string;
  readonly torque: QuantityDraft;
}

interface NutTyped {
  readonly nutTurn_deg?: number;
  readonly nutTorque?: QuantityTyped;
}

interface NutFieldsProps {
  readonly nut: NutDraft;
  readonly onNut: (change: Partial<NutDraft>) => void;
}

/** With the turn of the nut the bench can say how far the band is; with its torque it can stop at the largest. */
export const NutFields = ({ nut, onNut }: NutFieldsProps) => (
  <div className="sleeve__nut">
    <Field label="Nut turned, degrees" inputMode="decimal" value={nut.turn} onChange={(turn) => onNut({ turn })} />
    <QuantityField
      label="Torque it took"
      measure="fastener"
      draft={nut.torque}
      error={
        nut.torque.text.trim() !== '' && readNut(nut).torque_Nm === undefined ? 'A torque, or nothing.' : undefined
      }
      onChange={(torque) => onNut({ torque })}
    />
  </div>
);

/** The nut's part of a step as the notebook takes it: as typed, in the unit it was typed in. */
export function nutTyped(nut: NutDraft): NutTyped {
  const { turn_deg } = readNut(nut);
  const read = nut.torque.text.trim() === '' ? undefined : readDraft(nut.torque, 'fastener', 'Torque it took');
  return {
    ...(turn_deg === undefined ? {} : { nutTurn_deg: turn_deg }),
    ...(read?.ok === true ? { nutTorque: torqueTypedSchema.parse(read.value) } : {}),
  };
}

export function readNut({ turn, torque }: NutDraft): NutSaid {
  const read = torque.text.trim() === '' ? undefined : readDraft(torque, 'fastener', 'Torque it took');
  return {
    turn_deg: numberTyped(turn, 0.5, 720),
    torque_Nm: read?.ok === true ? insideOf(read.value) : undefined,
  };
}
