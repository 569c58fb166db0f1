import { lengthTypedSchema } from '../../../../shared/basics/recorded.ts';
import { ok } from '../../../../shared/basics/result.ts';
import type { ShimDrawer, ShimUse } from '../../../../shared/job/records/drawer.ts';
import { type Kit, mostSizes, sizesIn, withKit } from '../../../../shared/job/swap/kit.ts';
import { Button } from '../../../parts/Button.tsx';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { saveDrawer } from '../../../stores/drawer.ts';
import { useSession } from '../../../stores/session.ts';

interface KitDraft {
  readonly from: QuantityDraft;
  readonly to: QuantityDraft;
  readonly step: QuantityDraft;
  readonly each: string;
}
type KitErrors = FieldErrors<'from' | 'to' | 'step' | 'each'>;

interface KitFieldsProps {
  readonly drawer: ShimDrawer;
  readonly use: ShimUse;
}

/** A whole kit at once: from the thinnest to the thickest in even steps, so many of each. */
export function KitFields({ drawer, use }: KitFieldsProps) {
  const units = useSession((session) => session.units);
  const empty = emptyDraft('length', units);
  const held = useHeld<KitDraft>(() => ({ from: empty, to: empty, step: empty, each: '' }));
  const { draft, change, errors, read, submit } = useDraft(held, {
    read: (now) => readKit(now, use),
    keep: async (kit) => {
      const saved = await saveDrawer(withKit(drawer, kit));
      if (saved) change({ from: empty, to: empty, step: empty, each: '' });
      return saved;
    },
  });
  const length = (field: 'from' | 'to' | 'step', label: string) => (
    <QuantityField
      label={label}
      measure="length"
      draft={draft[field]}
      error={errors[field]}
      onChange={(now) => change({ [field]: now })}
    />
  );
  return (
    <Reveal label="A whole kit" words="Put in a whole kit">
      <Form className="drawer__kit" words="Put this kit in" submit={submit}>
        {length('from', 'From')}
        {length('to', 'To')}
        {length('step', 'In steps of')}
        <Field
          label="How many of each"
          inputMode="numeric"
          value={draft.each}
          error={errors.each}
          onChange={(each) => change({ each })}
        />
      </Form>
      <Button onPress={submit}>
        {read.ok ? `Put in ${sizesIn(read.value)} sizes, ${read.value.each} of each` : 'Put the kit in'}
      </Button>
    </Reveal>
  );
}

function readKit({ from, to, step, each }: KitDraft, use: ShimUse): DraftRead<Kit, KitErrors> {
  const [least, most, by] = [from, to, step].map((draft) => {
    const read = readDraft(draft, 'length', 'thickness');
    return read.ok && read.value.value > 0 ? lengthTypedSchema.parse(read.value) : undefined;
  });
  const count = each.trim() === '' ? Number.NaN : Number(each);
  const counts = Number.isInteger(count) && count > 0 && count <= 99;
  const sizes =
    least === undefined || most === undefined || by === undefined ? 0 : sizesIn({ from: least, to: most, step: by });
  if (least !== undefined && most !== undefined && by !== undefined && counts && sizes > 0 && sizes <= mostSizes)
    return ok({ use, from: least, to: most, step: by, each: count });
  return wrong({
    ...(least === undefined ? { from: 'The thinnest, with its unit.' } : {}),
    ...(most === undefined || sizes === 0 ? { to: 'The thickest, not thinner than the thinnest.' } : {}),
    ...(by === undefined || sizes > mostSizes ? { step: `A step that makes at most ${mostSizes} sizes.` } : {}),
    ...(counts ? {} : { each: 'A whole number of each.' }),
  });
}
