import { useState } from 'react';
import type { HeadFace } from '../../../../shared/axle/arithmetic/depthTool.ts';
import { type MarkUnit, markUnits, type PlusMeaning } from '../../../../shared/axle/arithmetic/etchedMark.ts';
import { depthPlaceOf } from '../../../../shared/job/planning/positions.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { emptyDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import { depthShimFrom, type DepthWay } from './depth.ts';
import { lengthIn, numberIn } from './inputs.ts';
import { PrintedRule } from './PrintedRule.tsx';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';

const ways: readonly { readonly value: DepthWay; readonly words: string }[] = [
  { value: 'marks', words: 'Old shim and marks' },
  { value: 'arbor', words: 'Arbor and gap' },
  { value: 'block', words: 'Gauge block' },
  { value: 'dial', words: 'Dial' },
  { value: 'distance', words: 'Distance' },
];

const faces: readonly { readonly value: HeadFace; readonly words: string }[] = [
  { value: 'front', words: 'Front of the head' },
  { value: 'back', words: 'Its bearing seat' },
];

const lengths = ['shim', 'gap', 'arbor', 'measured', 'nominal', 'head'] as const;
type LengthName = (typeof lengths)[number];
type Drafts = Readonly<Record<LengthName, ReturnType<typeof emptyDraft>>>;

/** The depth shim worked out from what was read, echoed in words before anybody trusts its sign. */
export function DepthSum({ build, assembly }: SumProps) {
  const units = useSession((session) => session.units);
  const [way, setWay] = useState<DepthWay>('marks');
  const [drafts, setDrafts] = useState<Drafts>(
    () => Object.fromEntries(lengths.map((name) => [name, emptyDraft('length', units)])) as unknown as Drafts,
  );
  const [typed, setTyped] = useState({ oldMark: '', newMark: '', pointer: '' });
  const [unit, setUnit] = useState<MarkUnit>();
  const [plusMeans, setPlusMeans] = useState<PlusMeaning>();
  const [measuredTo, setMeasuredTo] = useState<HeadFace>();
  const [wantedTo, setWantedTo] = useState<HeadFace>();
  const { makeUp } = build;
  const answer =
    makeUp === undefined
      ? undefined
      : depthShimFrom({
          way,
          place: depthPlaceOf(makeUp),
          unit,
          plusMeans,
          measuredTo,
          wantedTo,
          shim: lengthIn(drafts.shim),
          gap: lengthIn(drafts.gap),
          arbor: lengthIn(drafts.arbor),
          measured: lengthIn(drafts.measured),
          nominal: lengthIn(drafts.nominal),
          head: lengthIn(drafts.head),
          oldMark: numberIn(typed.oldMark),
          newMark: numberIn(typed.newMark),
          pointer: numberIn(typed.pointer),
        });
  const length = (name: LengthName, label: string, hint?: string) => (
    <QuantityField
      label={label}
      measure="length"
      draft={drafts[name]}
      hint={hint}
      onChange={(draft) => setDrafts({ ...drafts, [name]: draft })}
    />
  );
  const number = (name: keyof typeof typed, label: string, hint: string) => (
    <Field
      label={label}
      inputMode="text"
      value={typed[name]}
      hint={hint}
      onChange={(text) => setTyped({ ...typed, [name]: text })}
    />
  );
  const distances = way === 'arbor' || way === 'distance';
  const shims = () => go({ at: 'check', build: build.id, assembly, check: 'shims' });
  const note = async (words: string): Promise<void> => {
    if (await writeDeed({ kind: 'noted', topic: 'note', text: `Depth shim worked out. ${words}` })) shims();
  };
  return (
    <>
      <Stage title="The depth shim, worked out" aside={<SumChoice build={build} assembly={assembly} sum="depth" />}>
        <div className="form">
          <Choice label="From" value={way} onChange={setWay} options={ways} />
          <div className="form__fields">
            {length('shim', 'Shim that is in now', 'The pack as measured; 0 where none is in.')}
            {way === 'marks' ? number('oldMark', 'Mark on the old pinion', 'With its sign, as cut.') : undefined}
            {number(
              'newMark',
              way === 'marks' ? 'Mark on the new pinion' : 'Mark on the pinion',
              'With its sign; empty where there is none.',
            )}
            <Pick<MarkUnit>
              label="The mark counts in"
              value={unit}
              onChange={setUnit}
              options={markUnits.map((one) => ({ value: one, words: one }))}
            />
            {way === 'arbor' ? length('gap', 'Gap from the arbor to the head') : undefined}
            {way === 'arbor' ? length('arbor', 'Diameter of the arbor') : undefined}
            {way === 'block' ? length('gap', 'Thickest feeler that enters') : undefined}
            {way === 'dial'
              ? number('pointer', 'Pointer, thousandths of an inch', '84 to 99 reads direct; 0 to 11 has made a turn.')
              : undefined}
            {way === 'distance' ? length('measured', 'Distance from the ring-gear axis') : undefined}
            {distances
              ? length('nominal', 'Nominal distance', 'Not needed where the mark is the full distance.')
              : undefined}
            {distances && measuredTo !== wantedTo ? length('head', 'Head, front to back') : undefined}
          </div>
          <Choice
            label="A mark with + means that this pinion runs best"
            value={plusMeans}
            onChange={setPlusMeans}
            options={[
              { value: 'further out', words: 'Further out' },
              { value: 'deeper', words: 'Deeper' },
            ]}
          />
          {distances ? (
            <Choice label="Measured to" value={measuredTo} onChange={setMeasuredTo} options={faces} />
          ) : undefined}
          {distances ? (
            <Choice label="Nominal distance to" value={wantedTo} onChange={setWantedTo} options={faces} />
          ) : undefined}
          {way === 'marks' ? <PrintedRule /> : undefined}
        </div>
      </Stage>
      <Words
        title={answer === undefined ? 'Type what was read' : answer.ok ? answer.value.words : answer.problem.sentence}
        next={
          answer?.ok === true
            ? { words: 'Write it in the notes', run: () => void note(answer.value.words) }
            : { words: 'Back to the shims', run: shims }
        }
      >
        <p>
          {answer === undefined
            ? 'Unit and meaning of the mark are chosen, never assumed: nothing in the mark itself says.'
            : answer.ok
              ? `It becomes ${answer.value.shim.toFixed(3)} mm (${(answer.value.shim / 25.4).toFixed(4)} in). Read the sentence above before trusting the sign.`
              : answer.problem.remedy}
        </p>
      </Words>
    </>
  );
}
