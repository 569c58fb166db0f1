import { evaluate } from '../../src/shared/gears/evaluate.ts';
import { describeSet, type MeshModel } from '../../src/shared/gears/meshModel.ts';
import { mm } from '../../src/shared/quantities/quantity.ts';

/** A hypoid set with round dimensions of our own. */
const set = { pinionTeeth: 12, ringTeeth: 43, outerDiameter_mm: 210, offset_mm: 30, pinionSpiral_deg: 46 } as const;
const promised_ms = 8;

/** Wall times of `task` in ms, sorted; the first runs warm the engine up and are not counted. */
function timesOf(task: (run: number) => void, runs: number): number[] {
  for (let run = 0; run < 20; run += 1) task(run);
  const times = Array.from({ length: runs }, (_, run) => {
    const from = performance.now();
    task(run);
    return performance.now() - from;
  });
  return times.toSorted((a, b) => a - b);
}

const at = (sorted: readonly number[], share: number): string =>
  (sorted[Math.floor(share * (sorted.length - 1))] ?? NaN).toFixed(2);

function modelFor(cut: 'face-milled' | 'face-hobbed'): MeshModel {
  const described = describeSet({ ...set, cut });
  if (!described.ok) throw new Error(described.problem.sentence);
  return described.value;
}

/** How long a slider waits for both flanks, and how long a new set takes to be understood. */
export default async function bench(print: (line: string) => void): Promise<void> {
  for (const cut of ['face-milled', 'face-hobbed'] as const) {
    const model = modelFor(cut);
    const slider = timesOf((run) => {
      evaluate(model, { pinionOut: mm(((run % 100) - 50) / 500), ringAway: mm((run % 7) / 100) });
    }, 400);
    print(
      `both flanks, ${cut}: median ${at(slider, 0.5)} ms, p99 ${at(slider, 0.99)} ms (promised: under ${promised_ms} ms on one core)`,
    );
    const whole = timesOf(() => void modelFor(cut), 40);
    print(`a new set, ${cut}: median ${at(whole, 0.5)} ms, p99 ${at(whole, 0.99)} ms`);
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
