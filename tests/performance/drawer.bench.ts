import { mm } from '../../src/shared/basics/quantity.ts';
import { type DrawerSize, stackFor } from '../../src/shared/axle/drawer.ts';

const promised_ms = 50;

/** 200 sizes, five of each, from 0.08 mm up: inch steps and millimetre steps mixed, the worst case for exact counting. */
const drawer: readonly DrawerSize[] = Array.from({ length: 200 }, (_, index) => ({
  thickness: mm(index % 2 === 0 ? 0.08 + 0.005 * (index / 2) : (0.003 + 0.0005 * ((index - 1) / 2)) * 25.4),
  count: 5,
}));

/** How long the card at the stand waits for its stack. */
export default async function bench(print: (line: string) => void): Promise<void> {
  for (const wanted of [0.762, 1.503, 2.5]) {
    for (const tolerance of [0, 0.01]) {
      const used = process.cpuUsage();
      const times = Array.from({ length: 31 }, () => {
        const from = performance.now();
        stackFor(drawer, mm(wanted), mm(tolerance));
        return performance.now() - from;
      }).toSorted((a, b) => a - b);
      const { user, system } = process.cpuUsage(used);
      const each = (user + system) / 1000 / times.length;
      print(
        `${drawer.length} sizes, ${wanted} ± ${tolerance} mm: median ${times[15]?.toFixed(1)} ms, worst ${times.at(-1)?.toFixed(1)} ms on the clock; ${each.toFixed(1)} ms of processor time each (promised: under ${promised_ms} ms, ${(each / promised_ms).toFixed(2)} of it)`,
      );
    }
  }
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`));
