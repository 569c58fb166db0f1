import type { Build } from '../../../../shared/job/records/build.ts';
import { type Locking, oilUnits } from '../../../../shared/job/records/measurement.ts';
import { lockingWords, oilUnitWords } from '../../../../shared/presentation/words/results.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick as PickOne } from '../../../parts/Pick.tsx';
import type { ConfirmDraft, ConfirmErrors, Details } from './confirmDraft.ts';

interface ConfirmDetailsProps {
  readonly build: Build;
  readonly details: Details;
  readonly draft: ConfirmDraft;
  readonly errors: ConfirmErrors;
  readonly onChange: (change: Partial<ConfirmDraft>) => void;
}

/** What an answer says besides yes: bolts counted and locked, how the nut is locked, which oil and how much. */
export function ConfirmDetails({ build, details, draft, errors, onChange }: ConfirmDetailsProps) {
  if (details === 'none' || !draft.yes) return undefined;
  if (details === 'nut')
    return <LockedBy of={['staked', 'pinned', 'self-locking']} label="The nut is" draft={draft} onChange={onChange} />;
  if (details === 'oil') return <OilFields build={build} draft={draft} errors={errors} onChange={onChange} />;
  return (
    <>
      <Field
        asked
        label="Bolts counted, each at full torque"
        inputMode="numeric"
        value={draft.counted}
        error={errors.counted}
        onChange={(counted) => onChange({ counted })}
      />
      <LockedBy
        of={['thread-locker', 'lock-plates', 'self-locking']}
        label="Locked by"
        draft={draft}
        onChange={onChange}
      />
    </>
  );
}

type PartProps = Pick<ConfirmDetailsProps, 'draft' | 'onChange'>;

const LockedBy = ({
  of,
  label,
  draft,
  onChange,
}: PartProps & { readonly of: readonly Locking[]; readonly label: string }) => (
  <div className="typed__wide">
    <Choice
      label={label}
      value={draft.lockedBy}
      onChange={(lockedBy) => onChange({ lockedBy })}
      options={of.map((value) => ({ value, words: capital(lockingWords[value]) }))}
    />
  </div>
);

function OilFields({ build, draft, errors, onChange }: Omit<ConfirmDetailsProps, 'details'>) {
  const slips = build.makeUp?.differential === 'limited-slip';
  return (
    <>
      <Field
        autoFocus
        asked
        label="Oil, as the maker names it"
        value={draft.oil}
        error={errors.oil}
        hint={slips ? 'With the additive for the limited slip, where the maker asks for it.' : undefined}
        onChange={(oil) => onChange({ oil })}
      />
      <Field
        asked
        label="Amount"
        inputMode="decimal"
        value={draft.amount}
        error={errors.amount}
        onChange={(amount) => onChange({ amount })}
        beside={
          <PickOne
            bare
            joined
            label="Unit of the amount"
            value={draft.unit}
            onChange={(unit) => onChange({ unit })}
            options={oilUnits.map((value) => ({ value, words: oilUnitWords[value] }))}
          />
        }
      />
    </>
  );
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
