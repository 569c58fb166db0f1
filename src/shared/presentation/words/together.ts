import { showText, type UnitSystem } from '../../basics/show.ts';
import type { GearFigures, GearTogether, WhyNotTogether } from '../../job/gear/together.ts';
import { noCase } from '../../basics/noCase.ts';

/** Whether backlash and runout fit together: what it comes to, why, and what to do about it. */
interface TogetherWords {
  readonly title: string;
  readonly why: string;
}

export function togetherWords(together: GearTogether, system: UnitSystem): TogetherWords {
  if (together.answer === 'cannot-tell')
    return { title: 'Cannot tell whether backlash and runout fit', why: whyNot[together.reason] };
  const shown = (value: number): string => showText(value, 'length', system);
  const { variation_mm, expected_mm, widestAt_deg } = together;
  const measured = `The backlash varies by ${shown(variation_mm)}; the runout alone would make ${shown(expected_mm)}`;
  switch (together.answer) {
    case 'nothing-to-explain':
      return {
        title: 'Backlash and runout fit together',
        why: `The backlash varies by ${shown(variation_mm)}. Neither varies by more than its doubt.`,
      };
    case 'explained':
      return {
        title: 'Runout explains the variation',
        why: `${measured}, widest at ${Math.round(widestAt_deg)}°. Less runout is the way to less variation.`,
      };
    case 'not-explained':
      return {
        title: variation_mm < expected_mm ? 'Backlash and runout do not fit' : 'Runout does not explain the variation',
        why: `${measured}${variation_mm < expected_mm ? ', so it should vary more' : ''}. ${leftWords(together, shown)}`,
      };
    default:
      throw noCase(together);
  }
}

function leftWords({ odd, left_mm, leftAt_deg }: GearFigures, shown: (value: number) => string): string {
  const left =
    odd.length === 0
      ? `${shown(left_mm)} is left over, widest at ${Math.round(leftAt_deg)}°`
      : `${odd.length === 1 ? `Station ${odd[0]} stands` : `Stations ${odd.join(', ')} stand`} off what any runout can make`;
  return `${left}. Take the backlash anew: the base or the pinion may have moved, or the stem stood elsewhere than was entered. If it stays, look at the gear itself.`;
}

const whyNot: Readonly<Record<WhyNotTogether, string>> = {
  'no-angle':
    'Where the indicator sat from the mesh was not noted when the runout was read. With it, both come to the same place on the gear.',
  'too-few-stations': 'Backlash at three stations or more is needed to lay it beside the runout.',
  'no-harmonics':
    'The runout was read without places. Read at stations it tells where the gear is high, and can be laid beside the backlash.',
  'no-size': 'The backlash was felt at a radius, and the diameter of the ring gear is not entered.',
  'no-such-set': 'No gear set can be made with the teeth and diameter entered.',
};
