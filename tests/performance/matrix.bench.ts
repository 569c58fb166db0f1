import type { PlanAnswer } from '../../src/shared/axle/plan/answer.ts';
import { plan } from '../../src/shared/axle/plan/plan.ts';
import { isNone } from '../../src/shared/basics/result.ts';
import { matrixRows } from './plan/matrixRows.ts';

/**
 * Every kind of mark on every kind of set, with the plan's answer beside it: to be read by a person, row by row. It
 * measures nothing; it shows what would be said at the stand. `npm run bench matrix WORD…` prints rows that have the words.
 */
export const takesWords = true;

const moved = ({ pinionOut_mm, ringAway_mm }: PlanAnswer): string =>
  `pinion ${pinionOut_mm.toFixed(3)} out, ring gear ${ringAway_mm.toFixed(3)} away`;

function told({ decision, chance, expected, reasons, warnings, look, ...rest }: PlanAnswer): readonly string[] {
  const promised = isNone(expected)
    ? 'nothing promised'
    : `backlash ${expected.backlash.mean_mm.toFixed(2)}, crown ${expected.pattern.drive.crown.toFixed(2)}`;
  const sure = isNone(chance) ? '–' : `${Math.round(chance * 100)} of 100`;
  const answer = { decision, chance, expected, reasons, warnings, look, ...rest };
  return [
    `  ${decision.toUpperCase()} ${moved(answer)}; ${sure}; ${promised}`,
    ...reasons.map((reason) => `    ${reason}`),
    ...look.map((one) => `    · ${one}`),
    ...warnings.map((warning) => `    ! ${warning}`),
  ];
}

export default async function bench(print: (line: string) => void, words: readonly string[]): Promise<void> {
  for (const { what, input } of matrixRows()) {
    if (!words.every((word) => what.includes(word))) continue;
    print(what);
    const answer = plan(input);
    if (answer.ok) told(answer.value).forEach(print);
    else print(`  ${answer.problem.sentence}`);
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`), process.argv.slice(2));
