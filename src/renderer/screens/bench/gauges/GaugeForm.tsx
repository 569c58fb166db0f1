import { Choice, type Option } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { unitOptions } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import { type GaugeDraft, type GaugeErrors, measureOfKind, ofKind, overLink, reading } from './draft.ts';
import { LinkFields } from './LinkFields.tsx';

interface GaugeFormProps {
  readonly draft: GaugeDraft;
  readonly errors: GaugeErrors;
  readonly onChange: (change: Partial<GaugeDraft>) => void;
}

const noUnit = 'as-sent';

/** The record of a gauge: what it is, how fine it reads, when it was calibrated, where it is plugged in. */
export function GaugeForm(props: GaugeFormProps) {
  const { draft, errors, onChange } = props;
  return (
    <div className="gauge-form">
      <Field
        label="Name in the shop"
        value={draft.label}
        error={errors.label}
        onChange={(label) => onChange({ label })}
      />
      <KindFields {...props} />
      {draft.kind === 'typed' ? undefined : (
        <LinkFields
          draft={draft.link}
          errors={errors.link ?? {}}
          onChange={(link) => onChange(overLink(link, draft))}
        />
      )}
      <FinenessFields {...props} />
      {draft.kind === 'typed' ? undefined : (
        <UnitPick draft={draft} error={errors.unit} onChange={(unit) => onChange({ unit })} />
      )}
      <CalibrationFields {...props} />
    </div>
  );
}

const kinds: readonly Option<GaugeDraft['kind']>[] = [
  { value: 'indicator', words: 'Indicator' },
  { value: 'torque', words: 'Torque' },
  { value: 'typed', words: 'Read off, typed' },
];

const torqueKinds: readonly Option<'torque' | 'force'>[] = [
  { value: 'torque', words: 'A torque' },
  { value: 'force', words: 'A pull at an arm' },
];

/** What it measures; a pull scale also needs the arm that makes a torque of its pull. */
function KindFields({ draft, errors, onChange }: GaugeFormProps) {
  const units = useSession((session) => session.units);
  const pulls = measureOfKind(draft.kind, draft.resolution.unit) === 'force';
  return (
    <>
      <Choice label="Kind" value={draft.kind} onChange={(kind) => onChange(ofKind(kind, units))} options={kinds} />
      {draft.kind === 'torque' ? (
        <Choice
          label="What it reads"
          value={pulls ? 'force' : 'torque'}
          onChange={(what) => onChange(reading(what, units))}
          options={torqueKinds}
        />
      ) : undefined}
      {pulls ? <ArmFields draft={draft} errors={errors} onChange={onChange} /> : undefined}
    </>
  );
}

/** Of a pull scale. */
const ArmFields = ({ draft, errors, onChange }: GaugeFormProps) => (
  <>
    <QuantityField
      label="Arm"
      hint="From the axis of the pinion to the middle of the cord, the pull square to it."
      measure="length"
      draft={draft.arm}
      error={errors.arm}
      onChange={(arm) => onChange({ arm })}
    />
    <QuantityField
      label="Arm known to within, ±"
      hint="May stay empty."
      measure="length"
      draft={draft.armWithin}
      error={errors.armWithin}
      onChange={(armWithin) => onChange({ armWithin })}
    />
  </>
);

/** How fine it reads and how far it may be off: what decides how sure a number is. */
function FinenessFields({ draft, errors, onChange }: GaugeFormProps) {
  const measure = measureOfKind(draft.kind, draft.resolution.unit);
  const quantity = (field: 'resolution' | 'statedError' | 'hysteresis', label: string, hint: string) => (
    <QuantityField
      label={label}
      hint={hint}
      measure={measure}
      draft={draft[field]}
      error={errors[field]}
      onChange={(change) => onChange({ [field]: change })}
    />
  );
  return (
    <>
      {quantity('resolution', 'Resolution', 'The smallest step it shows.')}
      {quantity('statedError', 'Largest error stated, ±', 'From its certificate or its maker.')}
      {draft.kind === 'indicator'
        ? quantity('hysteresis', 'Hysteresis stated', 'Going in against coming out.')
        : undefined}
      {draft.kind === 'torque' ? (
        <Field
          label="Error stated, ± percent of the reading"
          inputMode="decimal"
          value={draft.statedError_percent}
          error={errors.statedError_percent}
          onChange={(statedError_percent) => onChange({ statedError_percent })}
        />
      ) : undefined}
    </>
  );
}

const CalibrationFields = ({ draft, errors, onChange }: GaugeFormProps) => (
  <>
    <Field label="Serial number" value={draft.serial} onChange={(serial) => onChange({ serial })} />
    <Field
      label="Calibrated on"
      type="date"
      value={draft.calibratedOn}
      error={errors.calibratedOn}
      onChange={(calibratedOn) => onChange({ calibratedOn })}
    />
    <Field
      label="Next calibration due"
      type="date"
      value={draft.dueOn}
      error={errors.dueOn}
      onChange={(dueOn) => onChange({ dueOn })}
    />
  </>
);

interface UnitPickProps {
  readonly draft: GaugeDraft;
  readonly error: string | undefined;
  readonly onChange: (unit: string) => void;
}

/** The unit the gauge is set to: of a line that has none, and of registers always. */
function UnitPick({ draft, error, onChange }: UnitPickProps) {
  const options = unitOptions(measureOfKind(draft.kind, draft.resolution.unit));
  if (draft.link.sort === 'modbus')
    return (
      <Pick
        label="Unit of the reading"
        value={draft.unit === '' ? undefined : draft.unit}
        error={error}
        onChange={onChange}
        options={options}
      />
    );
  const typed = draft.link.sort === 'keyboard';
  return (
    <Pick
      label={typed ? 'Unit it types in' : 'Unit where the line has none'}
      value={draft.unit === '' ? noUnit : draft.unit}
      onChange={(unit) => onChange(unit === noUnit ? '' : unit)}
      options={[{ value: noUnit, words: typed ? 'It types its unit each time' : 'As it is sent' }, ...options]}
    />
  );
}
