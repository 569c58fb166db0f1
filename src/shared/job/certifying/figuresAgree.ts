import { isNone, type OrNone } from '../../basics/result.ts';
import { mean } from '../../basics/statistics.ts';
import { combine, type UncertaintyPart } from '../../measuring/uncertainty/uncertainty.ts';
import type { BacklashResult, MeasuredResult, RunoutResult, StationResult } from '../records/measurement.ts';

/** Numbers that were worked out from each other on another machine may differ in their last digits. */
const nearly = (one: number, other: number): boolean =>
  Math.abs(one - other) <= 1e-6 * Math.max(Math.abs(one), Math.abs(other)) + 1e-12;

/**
 * Where the figures of a result contradict each other, in words: a mean that is not that of its stations, a U95 that is not
 * the sum of its parts (GUM, JCGM 100:2008). Undefined where they agree, and for what a person saw or typed as it is.
 */
export function figuresAgainst(result: MeasuredResult): string | undefined {
  switch (result.kind) {
    case 'backlash':
      return result.stations.map(stationAgainst).find((found) => found !== undefined) ?? togetherAgainst(result);
    case 'runout':
      return doubtAgainst(result.parts, result.u_mm, result.U95_mm);
    case 'torque':
      return (
        doubtAgainst(result.parts, result.u_Nm, result.U95_Nm) ??
        doubtAgainst(result.breakawayParts ?? [], undefined, result.breakawayU95_Nm)
      );
    default:
      return undefined;
  }
}

function stationAgainst({ number, parts, value_mm, u_mm, U95_mm, each_mm }: StationResult): string | undefined {
  if (isNone(value_mm)) return undefined;
  // Its value sets drift between rocks aside, and so is not their plain mean; it lies among them all the same.
  if (each_mm !== undefined && !isNone(U95_mm) && Math.abs(mean(each_mm) - value_mm) > U95_mm)
    return `station ${number}: its value is not that of its rocks`;
  const found = doubtAgainst(parts, u_mm, U95_mm);
  return found === undefined ? undefined : `station ${number}: ${found}`;
}

type Part = RunoutResult['parts'][number];

/** Records of before the parts were kept have none, and then there is nothing to add up. */
function doubtAgainst(parts: readonly Part[], u: OrNone<number> | undefined, U95: OrNone<number>): string | undefined {
  if (parts.length === 0 || isNone(U95)) return undefined;
  const whole = combine(parts.map(({ name, u: own, nu }): UncertaintyPart => ({ name, u: own, ...given(nu) })));
  const isU = u === undefined || (!isNone(u) && nearly(u, whole.u));
  return isU && nearly(U95, whole.U95) ? undefined : 'its uncertainty is not the sum of its parts';
}

const given = (nu: number | undefined): Pick<UncertaintyPart, 'nu'> => (nu === undefined ? {} : { nu });

function togetherAgainst({ stations, ...together }: BacklashResult): string | undefined {
  const values = stations.flatMap(({ value_mm }) => (isNone(value_mm) ? [] : [value_mm]));
  if (values.length === 0) return undefined;
  const [smallest, largest] = [Math.min(...values), Math.max(...values)];
  const said: readonly (readonly [string, OrNone<number>, number])[] = [
    ['mean', together.mean_mm, mean(values)],
    ['smallest', together.min_mm, smallest],
    ['largest', together.max_mm, largest],
    ...(values.length < 2 ? [] : [['variation', together.variation_mm, largest - smallest] as const]),
  ];
  const wrong = said.find(([, is, should]) => !isNone(is) && !nearly(is, should));
  return wrong === undefined ? undefined : `its ${wrong[0]} is not that of its stations`;
}
