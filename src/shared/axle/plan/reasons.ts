import type { Choice } from './decide.ts';
import type { PlanInput } from './input.ts';
import type { Insight } from './insight.ts';
import { depthReason, lengthwiseReason, ringReason } from './movementReasons.ts';
import { toldChance } from './fit.ts';
import { ruleReasons } from './leaving.ts';
import { fewHaveOne, signsIn } from './signs.ts';
import { inHundred } from './words.ts';

/** Why the plan says what it says: one plain sentence for each reason, weightiest first. */
export function reasonsFor(insight: Insight, choice: Choice, input: PlanInput): readonly string[] {
  const by = { change: changeReasons, leave: leaveReasons, suspect: suspectReasons };
  return by[choice.decision](insight, choice, input).filter((sentence) => sentence !== undefined);
}

type Reasons = (insight: Insight, choice: Choice, input: PlanInput) => readonly (string | undefined)[];

const changeReasons: Reasons = (insight, choice, input) =>
  choice.byRule === true
    ? ruleReasons(choice, input)
    : [
        depthReason(insight, choice, input),
        ringReason(insight, choice, input),
        lengthwiseReason(insight, choice, input),
        coastReason(choice),
        chanceReason(insight, choice),
      ];

function coastReason({ chosen }: Choice): string | undefined {
  if (chosen.coastHard < 0.5) return undefined;
  return 'The coast mark will probably keep a hard edge: drive outranks coast, and no position with drive right clears it.';
}

function chanceReason({ misfit }: Insight, { chosen, here }: Choice): string {
  const chance = toldChance(chosen.chance, misfit);
  const odds = `Of axles that would have shown these readings, about ${inHundred(chance)} are right there`;
  if (chance < 0.6) {
    return `${odds}: the readings fit quite different axles, so expect one trial more; it will tell them apart.`;
  }
  return here.chance < 0.05
    ? `${odds}.`
    : `${odds}, and ${inHundred(toldChance(here.chance, misfit))} where it stands.`;
}

const leaveReasons: Reasons = ({ aim, misfit }, { here, chosen }, input) => [
  leftBecause(input),
  `Of axles that would have shown these readings, about ${inHundred(toldChance(here.chance, misfit))} are right as they stand; another shim would not better that by more than readings can tell.`,
  aim.coast === undefined && chosen.coastHard > 0.5
    ? 'The coast mark keeps a hard edge that no position with drive right and backlash in its window avoids.'
    : undefined,
];

/** Along the face nothing is claimed while the cut is not known. */
function leftBecause({ target, set }: PlanInput): string {
  const backlash = 'and the backlash is in its window, as far as readings can tell.';
  if (target.kind === 'used-set') return `Both marks lie where this set ran before ${backlash}`;
  return set.cut === undefined || set.cut === 'not-known'
    ? `The drive mark is at its height ${backlash}`
    : `The drive mark lies where it belongs ${backlash}`;
}

const suspectReasons: Reasons = (insight, choice, input) => [
  input.trials.length === 1
    ? 'No shim in this window promises anything; one trial condemns no set, so look at what is said below and paint once more before anything comes apart.'
    : undefined,
  choice.possible < fewHaveOne
    ? `Hardly any shim helps: of axles that would have shown these readings, only about ${inHundred(choice.possible)} have a right position inside the backlash window.`
    : `Of axles that would have shown these readings, about ${inHundred(choice.possible)} have a right position inside the backlash window, but the readings do not tell where it is.`,
  ...signsIn(insight, choice, input),
  'Before another shim, check set numbers on both gears, seating of the ring gear and of every cup, the bearings, and the bores for alignment.',
];
