import { useMemo } from 'react';
import type { Length } from '../../../../shared/basics/quantity.ts';
import { showText } from '../../../../shared/basics/show.ts';
import type { PreloadSplit } from '../../../../shared/axle/arithmetic/sideShims.ts';
import { sideShimSign } from '../../../../shared/axle/makeUp.ts';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { useSession } from '../../../stores/session.ts';
import { backlashPerAway, packsFor } from './sides.ts';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';
import { SumWords } from './SumWords.tsx';
import { useLengths } from './useQuantities.tsx';

type SideLength = 'endPlay' | 'travelToMesh' | 'ringSide' | 'otherSide' | 'backlash' | 'preload';

/** Both side packs from end play and travel to mesh. */
export function SidesSum({ build, assembly }: SumProps) {
  const units = useSession((session) => session.units);
  const { draft, change } = useHeld<{ readonly split: PreloadSplit }>(() => ({ split: 'both sides' }));
  const { field, read } = useLengths<SideLength>();
  const { makeUp } = build;
  const perAway = useMemo(() => (makeUp === undefined ? undefined : backlashPerAway(makeUp)), [makeUp]);
  const sign = makeUp === undefined ? 1 : sideShimSign(makeUp);
  const packs = packsFor({ ...lengthsOf(read), split: draft.split, perAway, sign });
  const length = (value: number): string => showText(value, 'length', units);
  const answer =
    packs?.ok === true
      ? `Ring-gear side ${length(packs.value.ringSide)}, opposite side ${length(packs.value.otherSide)}.`
      : undefined;
  return (
    <>
      <Stage title="The side shims, worked out" aside={<SumChoice build={build} assembly={assembly} sum="sides" />}>
        <div className="form">
          <div className="form__fields">{asked.map(([name, label, hint]) => field(name, label, hint))}</div>
          <Choice
            label="The preload goes"
            value={draft.split}
            onChange={(split) => change({ split })}
            options={splits}
          />
        </div>
      </Stage>
      <SumWords
        build={build}
        assembly={assembly}
        about="Side shims worked out."
        answer={answer}
        problem={packs?.ok === false ? packs.problem : undefined}
        why={whyOf(perAway)}
      />
    </>
  );
}

const lengthsOf = (
  read: (name: SideLength) => Length | undefined,
): Readonly<Record<SideLength, Length | undefined>> => ({
  endPlay: read('endPlay'),
  travelToMesh: read('travelToMesh'),
  ringSide: read('ringSide'),
  otherSide: read('otherSide'),
  backlash: read('backlash'),
  preload: read('preload'),
});

/** What is read with the case in its bearings, in the order of the hands. */
const asked: readonly (readonly [name: SideLength, label: string, hint: string])[] = [
  ['endPlay', 'End play of the case', 'Pinion out, from stop to stop.'],
  ['travelToMesh', 'Travel to mesh', 'Pinion in, from fully away until the teeth touch.'],
  ['backlash', 'Backlash wanted', 'At the heel, along the turn.'],
  ['ringSide', 'In now, ring-gear side', 'Empty where none was in.'],
  ['otherSide', 'In now, opposite side', 'Empty where none was in.'],
  ['preload', 'Preload to be added', 'Thickness over zero play, from the maker’s manual.'],
];

const splits: readonly Option<PreloadSplit>[] = [
  { value: 'both sides', words: 'Half to each side' },
  { value: 'other side', words: 'All to the opposite side' },
];

const whyOf = (perAway: number | undefined): string =>
  perAway === undefined
    ? 'Describe the axle first: its teeth say how much backlash a movement of the ring gear opens.'
    : `Each mm the ring gear goes away opens about ${perAway.toFixed(2)} mm of backlash on this set, by the mesh model. The backlash measured with the packs in decides.`;
