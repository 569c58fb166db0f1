import { evaluate } from '../../src/shared/axle/mesh/evaluate.ts';
import { describeSet, type MeshModel } from '../../src/shared/axle/mesh/meshModel.ts';
import { mm } from '../../src/shared/basics/quantity.ts';

/** A hypoid set with round dimensions of our own. */
const set = { pinionTeeth: 12, ringTeeth: 43, outerDiameter_mm: 210, offset_mm: 30, pinionSpiral_deg: 46 } as const;
const promised_ms = 3;

/** Times of `task` in ms: on the clock, sorted, and of the processor for each run; the first runs warm the engine up and are not counted. */
function timesOf(task: (run: number) => void, runs: number): { readonly clock: number[]; readonly each: number } {
  for (let run = 0; run < 20; run += 1) task(run);
  const used = process.cpuUsage();
  const times = Array.from({ length: runs }, (_, run) => {
    const from = performance.now();
    task(run);
    return performance.now() - from;
  });
  const { user, system } = process.cpuUsage(used);
  return { clock: times.toSorted((a, b) => a - b), each: (user + system) / 1000 / runs };
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
      `both flanks, ${cut}: median ${at(slider.clock, 0.5)} ms, p99 ${at(slider.clock, 0.99)} ms on the clock; ${slider.each.toFixed(2)} ms of processor time each (promised: under ${promised_ms} ms on one core, ${(slider.each / promised_ms).toFixed(2)} of it)`,
    );
    const whole = timesOf(() => void modelFor(cut), 40);
    print(
      `a new set, ${cut}: median ${at(whole.clock, 0.5)} ms, p99 ${at(whole.clock, 0.99)} ms on the clock; ${whole.each.toFixed(2)} ms of processor time each`,
    );
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
