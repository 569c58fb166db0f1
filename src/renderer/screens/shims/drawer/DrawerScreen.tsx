import { useEffect, useState } from 'react';
import { showText } from '../../../../shared/basics/show.ts';
import { insideOf, lengthTypedSchema } from '../../../../shared/basics/recorded.ts';
import { type ShimSize, shimUses, type ShimUse } from '../../../../shared/job/records/drawer.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { emptyDraft, readDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { readDrawer, saveDrawer, useDrawer } from '../../../stores/drawer.ts';
import { useSession } from '../../../stores/session.ts';
import './drawer.css';

const useWords: Readonly<Record<ShimUse, string>> = {
  'pinion-depth': 'Pinion depth',
  side: 'Sides',
  'pinion-preload': 'Pinion preload',
};

/** The shims at hand: sizes as measured, and how many of each. They are the shop's, whatever axle is on the stand. */
export function DrawerScreen() {
  const units = useSession((session) => session.units);
  const drawer = useDrawer((seen) => seen.drawer);
  const [use, setUse] = useState<ShimUse>('pinion-depth');
  const [thickness, setThickness] = useState(() => emptyDraft('length', units));
  const [count, setCount] = useState('1');
  const [tried, setTried] = useState(false);
  useEffect(() => void readDrawer(), []);
  const sizes = drawer?.sizes ?? [];
  const size = readSize(use, thickness, count);
  const add = async (): Promise<void> => {
    setTried(true);
    if (size === undefined) return;
    if (!(await saveDrawer({ sizes: withSize(sizes, size) }))) return;
    setTried(false);
    setThickness({ ...thickness, text: '' });
  };
  const change = (one: ShimSize, by: number): void =>
    void saveDrawer({
      sizes: sizes.map((other) => (other === one ? { ...one, count: Math.max(0, one.count + by) } : other)),
    });
  return (
    <>
      <Stage title="Shims at hand">
        <div className="drawer">
          <Choice
            label="For"
            value={use}
            onChange={setUse}
            options={shimUses.map((one) => ({ value: one, words: useWords[one] }))}
          />
          <form
            className="drawer__new"
            onSubmit={(event) => {
              event.preventDefault();
              void add();
            }}
          >
            <QuantityField
              label="Thickness as measured"
              measure="length"
              draft={thickness}
              error={tried && size === undefined ? 'A thickness up to 12 mm, and a whole number of them.' : undefined}
              onChange={setThickness}
            />
            <Field label="How many" inputMode="numeric" value={count} onChange={setCount} />
            <button type="submit" className="unseen" tabIndex={-1}>
              Put it in
            </button>
          </form>
          <Sizes
            sizes={sizes.filter((one) => one.use === use)}
            known={drawer !== undefined}
            onChange={change}
            onDrop={(one) => void saveDrawer({ sizes: sizes.filter((other) => other !== one) })}
          />
        </div>
      </Stage>
      <Words
        title="What lies in the drawer"
        next={{ words: 'Put it in the drawer', run: () => void add(), disabled: thickness.text.trim() === '' }}
      >
        <p>
          The swap card builds its stacks from these: fewest shims, thin ones between thick ones, and what to buy if
          none fits. The pack that counts is the one measured.
        </p>
      </Words>
    </>
  );
}

function readSize(use: ShimUse, thickness: Parameters<typeof readDraft>[0], count: string): ShimSize | undefined {
  const read = readDraft(thickness, 'length', 'thickness');
  const number = Number(count);
  if (!read.ok || !Number.isInteger(number) || number < 0 || number > 999) return undefined;
  const typed = lengthTypedSchema.parse(read.value);
  return insideOf(typed) > 0 && insideOf(typed) <= 12 ? { use, thickness: typed, count: number } : undefined;
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
  readonly known: boolean;
  readonly onChange: (size: ShimSize, by: number) => void;
  readonly onDrop: (size: ShimSize) => void;
}

function Sizes({ sizes, known, onChange, onDrop }: SizesProps) {
  const units = useSession((session) => session.units);
  if (sizes.length === 0) {
    return (
      <p className="quiet">
        {known ? 'No sizes yet. Measure each size once, and count them.' : 'The drawer is being read.'}
      </p>
    );
  }
  return (
    <ul className="drawer__sizes">
      {sizes.map((size) => {
        const shown = showText(insideOf(size.thickness), 'length', units);
        return (
          <li key={`${size.thickness.value} ${size.thickness.unit}`} className="drawer__size">
            <span className="drawer__thickness digits">{shown}</span>
            <Button onPress={() => onChange(size, -1)} disabled={size.count === 0} more={`one of ${shown} less`}>
              −
            </Button>
            <span className="drawer__count digits">{size.count}</span>
            <Button onPress={() => onChange(size, 1)} more={`one of ${shown} more`}>
              +
            </Button>
            <Button look="quiet" onPress={() => onDrop(size)} more={shown}>
              Rub out
            </Button>
          </li>
        );
      })}
    </ul>
  );
}
