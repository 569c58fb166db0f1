import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { markUnits } from '../../../../shared/axle/arithmetic/etchedMark.ts';
import type { QuantityTyped } from '../../../../shared/basics/recorded.ts';
import { packAt } from '../../../../shared/job/records/build.ts';
import type { Length } from '../../../../shared/basics/quantity.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { depthPlaceOf } from '../../../../shared/job/planning/positions.ts';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { depthShimFrom, type DepthWay } from './depth.ts';
import { DepthChoices } from './DepthChoices.tsx';
import { blankDepth, type DepthDraft } from './depthDraft.ts';
import { type DepthField, depthFields, type DepthLength, headField } from './depthFields.ts';
import { numberIn } from './inputs.ts';
import { PrintedRule } from './PrintedRule.tsx';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';
import { SumWords } from './SumWords.tsx';
import { useLengths } from './useQuantities.tsx';

const ways: readonly Option<DepthWay>[] = [
  { value: 'marks', words: 'Old shim and marks' },
  { value: 'arbor', words: 'Arbor and gap' },
  { value: 'block', words: 'Gauge block' },
  { value: 'dial', words: 'Dial' },
  { value: 'distance', words: 'Distance' },
];

/** What was typed and chosen for one way stays with it: the same word means another thing in another. */
type DraftOfWay = Readonly<Partial<Record<DepthWay, DepthDraft>>>;

/** The depth shim worked out from what was read, echoed in words before anybody trusts its sign. */
export function DepthSum({ build, assembly }: SumProps) {
  const { draft: all, change: changeAll } = useHeld<{ readonly way: DepthWay; readonly of: DraftOfWay }>(() => ({
    way: 'marks',
    of: {},
  }));
  const { way } = all;
  const draft = all.of[way] ?? { ...blankDepth, way };
  const change = (some: Partial<DepthDraft>): void => changeAll({ of: { ...all.of, [way]: { ...draft, ...some } } });
  const pack = packIn(build, assembly);
  const lengths = useLengths<`${DepthWay} ${DepthLength}`>((name) => (name.endsWith(' shim') ? pack : undefined));
  const read = (name: DepthLength): Length | undefined => lengths.read(`${way} ${name}`);
  const distances = way === 'arbor' || way === 'distance';
  const asked = [...depthFields[way], ...(distances && draft.measuredTo !== draft.wantedTo ? [headField] : [])];
  const found = build.makeUp === undefined ? undefined : answerOf(draft, read, build.makeUp);
  const shim = found?.ok === true ? found.value.shim : undefined;
  return (
    <>
      <Stage title="The depth shim, worked out" aside={<SumChoice build={build} assembly={assembly} sum="depth" />}>
        <div className="form">
          <Choice label="From" value={way} onChange={(from) => changeAll({ way: from })} options={ways} />
          <div className="form__fields">
            {asked.map((field) =>
              'length' in field ? (
                lengths.field(`${way} ${field.length}`, field.label, field.hint)
              ) : (
                <MarkField
                  key={'number' in field ? field.number : 'unit'}
                  field={field}
                  draft={draft}
                  onChange={change}
                />
              ),
            )}
          </div>
          <DepthChoices draft={draft} distances={distances} onChange={change} />
          {way === 'marks' ? <PrintedRule draft={draft} shim={read('shim')} becomes={shim} /> : undefined}
        </div>
      </Stage>
      <SumWords
        build={build}
        assembly={assembly}
        about="Depth shim worked out."
        answer={found?.ok === true ? found.value.words : undefined}
        problem={found?.ok === false ? found.problem : undefined}
        why={shim === undefined ? neverAssumed : becomesWords(shim)}
      />
    </>
  );
}

/** The pack that was measured under the pinion last, up to this assembly. */
function packIn({ assemblies }: SumProps['build'], assembly: string): QuantityTyped | undefined {
  const upTo = assemblies.slice(0, assemblies.findIndex(({ id }) => id === assembly) + 1);
  const packs = upTo.map((one) => packAt(one, 'pinion-depth')?.pack);
  return packs.findLast((pack) => pack !== undefined);
}

const neverAssumed = 'Unit and meaning of the mark are chosen, never assumed: nothing in the mark itself says.';

/** In both systems: shims are sold in one and measured in the other. */
const becomesWords = (shim: Length): string =>
  `It becomes ${showText(shim, 'length', 'metric')} (${showText(shim, 'length', 'inch')}). Read the sentence above before trusting the sign.`;

function answerOf(draft: DepthDraft, read: (name: DepthLength) => Length | undefined, makeUp: MakeUp) {
  return depthShimFrom({
    ...draft,
    place: depthPlaceOf(makeUp),
    shim: read('shim'),
    gap: read('gap'),
    arbor: read('arbor'),
    measured: read('measured'),
    nominal: read('nominal'),
    head: read('head'),
    oldMark: numberIn(draft.oldMark),
    newMark: numberIn(draft.newMark),
    pointer: numberIn(draft.pointer),
  });
}

interface MarkFieldProps {
  readonly field: Exclude<DepthField, { readonly length: DepthLength }>;
  readonly draft: DepthDraft;
  readonly onChange: (change: Partial<DepthDraft>) => void;
}

/** A mark or a pointer as it is read, or in what a mark counts. */
function MarkField({ field, draft, onChange }: MarkFieldProps) {
  if ('unit' in field)
    return (
      <Pick
        label="The mark counts in"
        value={draft.unit}
        onChange={(unit) => onChange({ unit })}
        options={markUnits.map((one) => ({ value: one, words: one }))}
      />
    );
  return (
    <Field
      label={field.label}
      inputMode="text"
      value={draft[field.number]}
      hint={field.hint}
      onChange={(text) => onChange({ [field.number]: text })}
    />
  );
}
