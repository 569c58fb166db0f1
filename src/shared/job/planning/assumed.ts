import { describeSet } from '../../axle/mesh/meshModel.ts';
import { showText, type UnitSystem } from '../../basics/show.ts';
import { type MakeUp, notchOf } from '../../axle/makeUp.ts';
import { setInputOf } from '../../axle/setOf.ts';

/** Steps taken where nobody said in which the shims come: about a thousandth of an inch (own choice). */
const usualStep_mm = 0.025;

/** Shims come in steps of a thousandth where people measure in inches (common practice). */
const thousandth_mm = 0.0254;

/** A description made in inches, with the steps its shims come in where nobody said otherwise; adjusters have notches. */
export function withStepsOf(makeUp: MakeUp, system: UnitSystem): MakeUp {
  if (system === 'metric') return makeUp;
  const side = makeUp.caseAdjustment === 'threaded-adjusters' ? {} : { ringStep_mm: thousandth_mm };
  return { pinionStep_mm: thousandth_mm, ...side, ...makeUp };
}

/** The steps in which pinion and ring gear can be moved on this axle. */
export const stepsOf = (makeUp: MakeUp): { readonly pinion: number; readonly side: number } => ({
  pinion: makeUp.pinionStep_mm ?? usualStep_mm,
  side: (makeUp.caseAdjustment === 'threaded-adjusters' ? notchOf(makeUp) : makeUp.ringStep_mm) ?? usualStep_mm,
});

/** What the plan takes as given because nobody read it off, in words, the weightiest first. */
export function assumedIn(makeUp: MakeUp, system: UnitSystem): readonly string[] {
  const { outerDiameter_mm } = makeUp;
  if (outerDiameter_mm === undefined) return [];
  const model = describeSet(setInputOf(makeUp, outerDiameter_mm));
  if (!model.ok) return [];
  const { set, visible, assumed } = model.value;
  const length = (value: number): string => showText(value, 'length', system, 0.1);
  const degrees = (value: number): string => showText(value, 'angle', system);
  const words: Readonly<Record<string, string>> = {
    offset_mm: 'offset 0',
    'offset_mm taken as 0': 'offset 0, because no gears of the offset given exist',
    cut: 'face-milled, and nothing said about the place along the face',
    faceWidth_mm: `face width ${length(set.faceWidth)}`,
    pinionSpiral_deg: `pinion spiral ${degrees(set.pinionSpiral)}`,
    pressureAngle_deg: `pressure angle ${degrees(set.pressureAngle)}`,
    cutterRadius_mm: `cutter radius ${length(set.cutterRadius)}`,
    bladeGroups: `${set.bladeGroups} blade groups`,
    rootTilt_deg: `root tilt ${degrees(set.rootTilt)}`,
    flankHeight_mm: `flank height ${length(visible.height)}`,
    easeoff: 'a usual relief of the flanks, learnt from the marks',
  };
  const step = showText(usualStep_mm, 'length', system);
  return [
    ...assumed.flatMap((key) => words[key] ?? []),
    ...(makeUp.pinionStep_mm === undefined ? [`depth in steps of ${step}`] : []),
    ...ringStepAssumed(makeUp, step),
  ];
}

/** Adjusters whose notch is not known are moved by what the backlash says, not by steps. */
function ringStepAssumed(makeUp: MakeUp, step: string): readonly string[] {
  if (makeUp.caseAdjustment === 'threaded-adjusters') {
    return notchOf(makeUp) === undefined
      ? ['the notch of the adjusters not known, so nothing is counted in notches']
      : [];
  }
  return makeUp.ringStep_mm === undefined ? [`ring gear in steps of ${step}`] : [];
}
