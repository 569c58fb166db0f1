import type { EdgeContact, Mark } from '../../axle/mark/mark.ts';
import type { ExpectedSeen } from '../records/swap.ts';
import { type PlanInput, type Side } from '../../axle/plan/input.ts';
import type { Insight } from '../../axle/plan/insight.ts';
import { readingOf } from '../../axle/plan/misfit.ts';
import { toldChance } from '../../axle/plan/fit.ts';
import { type Figure, outlookAt, seenAt } from '../../axle/plan/outlook.ts';
import type { QuickMark } from '../../axle/plan/quickFlank.ts';
import type { Place } from '../../axle/plan/sight.ts';

/** What to expect at any place, for a picture that follows a hand. */
export interface Foreseen {
  readonly place: Place;
  readonly expected: ExpectedSeen;
  /** Chance of being right there, 0…1, among axles that would have shown the readings, as it is told. */
  readonly chance: number;
}

/** The marks and the backlash to expect at a place, over every axle that would have shown what was read. */
export function foresee(insight: Insight, input: PlanInput, place: Place): Foreseen {
  const { sight, axles, aim } = insight;
  const outlook = outlookAt(sight, axles, aim, place);
  const seen = axles.map((axle) => seenAt(sight, axle, place).marks);
  const last = input.trials.at(-1);
  const mark = (side: Side): Mark => {
    const read = last?.pattern[side];
    const doubt = (along: 'heel' | 'crown'): number => (read === undefined ? 0 : readingOf(read, along));
    const { heel, crown } = outlook.marks[side];
    return {
      heel: onFlank(heel.mean),
      crown: onFlank(crown.mean),
      ...sizesOf(seen.map((marks) => marks[side])),
      // The model has no slant of its own to promise; the last one read is drawn on.
      slant_deg: read?.slant_deg ?? 0,
      U95: { heel: expanded(heel, doubt('heel')), crown: expanded(crown, doubt('crown')) },
    };
  };
  const { mean } = outlook.backlash;
  return {
    place,
    chance: toldChance(outlook.chance, insight.misfit),
    expected: {
      backlash: {
        mean_mm: rounded(mean),
        min_mm: rounded(mean - aim.below),
        max_mm: rounded(mean + aim.above),
        U95_mm: expanded(outlook.backlash, (last?.backlash.U95_mm ?? 0.01) / 2),
      },
      drive: mark('drive'),
      coast: mark('coast'),
      lengthwise: sight.lengthwise,
    },
  };
}

/** Extents as most of the axles have them, and how the mark meets each edge on more than half of them. */
function sizesOf(marks: readonly QuickMark[]): Pick<Mark, 'length' | 'height' | 'edges'> {
  const mean = (of: (mark: QuickMark) => number): number =>
    marks.reduce((sum, mark) => sum + of(mark), 0) / marks.length;
  const contact = (edge: number): EdgeContact => {
    const below = (share: number): number => mean(({ edgeGaps }) => ((edgeGaps[edge] ?? 1) < share ? 1 : 0));
    if (below(0.5) > 0.5) return 'hard';
    return below(1) > 0.5 ? 'feathered' : 'clear';
  };
  return {
    length: Math.min(
      1,
      mean(({ length }) => length),
    ),
    height: Math.min(
      1,
      mean(({ height }) => height),
    ),
    edges: { toe: contact(0), heel: contact(1), crown: contact(2), root: contact(3) },
  };
}

/** Coverage factor 2 for about 95 %, the spread of what is believed and of the reading together. */
const expanded = ({ sd }: Figure, reading: number): number => rounded(2 * Math.hypot(sd, reading));
const onFlank = (value: number): number => rounded(Math.max(-0.5, Math.min(0.5, value)));
const rounded = (value: number): number => Math.round(value * 1000) / 1000;
