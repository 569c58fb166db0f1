import { Choice } from '../../../parts/Choice.tsx';
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
export function GaugeForm({ draft, errors, onChange }: GaugeFormProps) {
  const units = useSession((session) => session.units);
  const measure = measureOfKind(draft.kind, draft.resolution.unit);
  const quantity = (
    field: 'resolution' | 'statedError' | 'hysteresis' | 'arm' | 'armWithin',
    label: string,
    hint: string,
  ) => (
    <QuantityField
      label={label}
      hint={hint}
      measure={field === 'arm' || field === 'armWithin' ? 'length' : measure}
      draft={draft[field]}
      error={errors[field]}
      onChange={(change) => onChange({ [field]: change })}
    />
  );
  return (
    <div className="gauge-form">
      <Field
        label="Name in the shop"
        value={draft.label}
        error={errors.label}
        onChange={(label) => onChange({ label })}
      />
      <Choice
        label="Kind"
        value={draft.kind}
        onChange={(kind) => onChange(ofKind(kind, units))}
        options={[
          { value: 'indicator', words: 'Indicator' },
          { value: 'torque', words: 'Torque' },
          { value: 'typed', words: 'Read off, typed' },
        ]}
      />
      {draft.kind === 'torque' ? (
        <Choice
          label="What it reads"
          value={measure === 'force' ? 'force' : 'torque'}
          onChange={(what) => onChange(reading(what, units))}
          options={[
            { value: 'torque', words: 'A torque' },
            { value: 'force', words: 'A pull at an arm' },
          ]}
        />
      ) : undefined}
      {measure === 'force' ? (
        <>
          {quantity('arm', 'Arm', 'From the axis of the pinion to the middle of the cord, the pull square to it.')}
          {quantity('armWithin', 'Arm known to within, ±', 'May stay empty.')}
        </>
      ) : undefined}
      {draft.kind === 'typed' ? undefined : (
        <LinkFields
          draft={draft.link}
          errors={errors.link ?? {}}
          onChange={(link) => onChange(overLink(link, draft))}
        />
      )}
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
      {draft.kind === 'typed' ? undefined : (
        <UnitPick draft={draft} error={errors.unit} onChange={(unit) => onChange({ unit })} />
      )}
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
    </div>
  );
}

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
  return (
    <Pick
      label="Unit where the line has none"
      value={draft.unit === '' ? noUnit : draft.unit}
      onChange={(unit) => onChange(unit === noUnit ? '' : unit)}
      options={[{ value: noUnit, words: 'As it is sent' }, ...options]}
    />
  );
}
