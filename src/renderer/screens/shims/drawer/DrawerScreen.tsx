import { useEffect } from 'react';
import { ok } from '../../../../shared/basics/result.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { insideOf, lengthTypedSchema } from '../../../../shared/basics/recorded.ts';
import { type ShimSize, shimUses, type ShimUse } from '../../../../shared/job/records/drawer.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { emptyDraft, type QuantityDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { type DraftForm, useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Words } from '../../../parts/Words.tsx';
import { readDrawer, saveDrawer, useDrawer } from '../../../stores/drawer.ts';
import { go, type Route, useRoute } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { KitFields } from './KitFields.tsx';
import './drawer.css';

const useWords: Readonly<Record<ShimUse, string>> = {
  'pinion-depth': 'Pinion depth',
  side: 'Sides',
  'pinion-preload': 'Pinion preload',
};

interface SizeDraft {
  readonly use: ShimUse;
  readonly thickness: QuantityDraft;
  readonly count: string;
}

/** The shims at hand: sizes as measured, and how many of each. They are the shop's, whatever axle is on the stand. */
export function DrawerScreen() {
  const drawer = useDrawer((seen) => seen.drawer);
  useEffect(() => void readDrawer(), []);
  const sizes = drawer?.sizes ?? [];
  const { draft, change, errors, submit } = useSizeForm(sizes);
  const before = useRoute(({ before }) => before);
  const back = (): void => go(before);
  const isTyped = draft.thickness.text.trim() !== '';
  return (
    <>
      <Stage title="Shims at hand">
        <div className="drawer">
          <SizeFields draft={draft} errors={errors} change={change} submit={submit} />
          {drawer === undefined ? undefined : <KitFields drawer={drawer} use={draft.use} />}
          <Sizes sizes={sizes} use={draft.use} known={drawer !== undefined} />
        </div>
      </Stage>
      <Words
        title="What lies in the drawer"
        next={isTyped ? { words: 'Put it in the drawer', run: submit } : { words: backWords(before), run: back }}
        others={isTyped ? <Button onPress={back}>{backWords(before)}</Button> : undefined}
      >
        <p>
          The swap card builds its stacks from these: fewest shims, thin ones between thick ones, and what to buy if
          none fits. The pack that counts is the one measured.
        </p>
      </Words>
    </>
  );
}

/** Where the drawer was looked into from. */
function backWords({ at }: Route): string {
  if (at === 'swap') return 'Back to the swap card';
  return at === 'builds' ? 'Back to the builds' : 'Back to the job';
}

/** A size to be put in; once it lies in the drawer, the next thickness is asked. */
function useSizeForm(sizes: readonly ShimSize[]) {
  const units = useSession((session) => session.units);
  const held = useHeld<SizeDraft>(() => ({ use: 'pinion-depth', thickness: emptyDraft('length', units), count: '1' }));
  return useDraft(held, {
    read: readSize,
    keep: async (size) => {
      const saved = await saveDrawer({ sizes: withSize(sizes, size) });
      if (saved) held.change({ thickness: { ...held.draft.thickness, text: '' } });
      return saved;
    },
  });
}

type SizeErrors = FieldErrors<'thickness' | 'count'>;
type SizeFieldsProps = Pick<DraftForm<SizeDraft, ShimSize, SizeErrors>, 'draft' | 'errors' | 'change' | 'submit'>;

/** A size that is put into the drawer, and for what. */
const SizeFields = ({ draft, errors, change, submit }: SizeFieldsProps) => (
  <>
    <Choice
      label="For"
      value={draft.use}
      onChange={(use) => change({ use })}
      options={shimUses.map((one) => ({ value: one, words: useWords[one] }))}
    />
    <Form className="drawer__new" words="Put it in" submit={submit}>
      <QuantityField
        label="Thickness as measured"
        measure="length"
        draft={draft.thickness}
        error={errors.thickness}
        onChange={(thickness) => change({ thickness })}
      />
      <Field
        label="How many"
        inputMode="numeric"
        value={draft.count}
        error={errors.count}
        onChange={(count) => change({ count })}
      />
    </Form>
  </>
);

/** The thickest single shim a drawer takes; anything above is a slip of the finger (own choice). */
const thickest_mm = 12;
const most = 999;

function readSize({ use, thickness, count }: SizeDraft): DraftRead<ShimSize, SizeErrors> {
  const read = readDraft(thickness, 'length', 'thickness');
  const typed = read.ok ? lengthTypedSchema.parse(read.value) : undefined;
  const fits = typed !== undefined && insideOf(typed) > 0 && insideOf(typed) <= thickest_mm;
  const number = count.trim() === '' ? Number.NaN : Number(count);
  const counts = Number.isInteger(number) && number >= 0 && number <= most;
  if (fits && counts) return ok({ use, thickness: typed, count: number });
  return wrong({
    ...(fits ? {} : { thickness: `A thickness up to ${thickest_mm} mm.` }),
    ...(counts ? {} : { count: 'A whole number of them.' }),
  });
}

/** Sizes of a use stand thickest first; a size typed again takes the new count. */
function withSize(sizes: readonly ShimSize[], size: ShimSize): ShimSize[] {
  const others = sizes.filter(
    (one) => one.use !== size.use || Math.abs(insideOf(one.thickness) - insideOf(size.thickness)) > 0.0004,
  );
  return [...others, size].toSorted((a, b) => insideOf(b.thickness) - insideOf(a.thickness));
}

interface SizesProps {
  readonly sizes: readonly ShimSize[];
  readonly use: ShimUse;
  /** Whether the drawer has been read. */
  readonly known: boolean;
}

/** The sizes of one use, to be counted up and down. */
function Sizes({ sizes, use, known }: SizesProps) {
  const shown = sizes.filter((one) => one.use === use);
  if (shown.length === 0) {
    return (
      <p className="quiet">
        {known ? 'No sizes yet. Measure each size once, and count them.' : 'The drawer is being read.'}
      </p>
    );
  }
  const put = (size: ShimSize, by: number): void =>
    void saveDrawer({
      sizes: sizes.map((one) => (one === size ? { ...size, count: Math.max(0, size.count + by) } : one)),
    });
  return (
    <ul className="drawer__sizes">
      {shown.map((size) => (
        <SizeRow
          key={`${size.thickness.value} ${size.thickness.unit}`}
          size={size}
          onCount={(by) => put(size, by)}
          onDrop={() => void saveDrawer({ sizes: sizes.filter((one) => one !== size) })}
        />
      ))}
    </ul>
  );
}

interface SizeRowProps {
  readonly size: ShimSize;
  readonly onCount: (by: number) => void;
  readonly onDrop: () => void;
}

function SizeRow({ size, onCount, onDrop }: SizeRowProps) {
  const units = useSession((session) => session.units);
  const words = showText(insideOf(size.thickness), 'length', units);
  return (
    <li className="drawer__size">
      <span className="drawer__thickness digits">{words}</span>
      <Button onPress={() => onCount(-1)} disabled={size.count === 0} more={`one of ${words} less`}>
        −
      </Button>
      <span className="drawer__count digits">{size.count}</span>
      <Button onPress={() => onCount(1)} more={`one of ${words} more`}>
        +
      </Button>
      <Button look="quiet" onPress={onDrop} more={words}>
        Rub out
      </Button>
    </li>
  );
}
