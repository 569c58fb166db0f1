/** Gauges in a process of their own, so that their work is not counted with the bench's: rates and seconds are given. */
import { serveLine } from '../../hardware-sim/lines/line.ts';

const rates = (process.argv[2] ?? '').split(',').map(Number);
const seconds = Number(process.argv[3]);
const cables = await Promise.all(rates.map(() => serveLine()));
process.stdout.write(`${JSON.stringify(cables.map(({ link }) => link))}\n`);
await new Promise((resolve) => void process.stdin.once('data', resolve));

const began = performance.now();
/** Every gauge beats for itself; here they are spread evenly, so that no two lines leave together. */
const due_ms = (gauge: number, line: number): number =>
  began + ((line + gauge / rates.length) / (rates[gauge] ?? 1)) * 1000;
/** When each line was written, on the wall clock that every process here shares. */
const written = rates.map((): number[] => []);
const unfinished = (): number[] =>
  [...rates.keys()].filter((i) => (written[i]?.length ?? 0) < (rates[i] ?? 0) * seconds);

for (let left = unfinished(); left.length > 0; left = unfinished()) {
  for (const gauge of left) await sendDue(gauge);
  // Asleep until the next line: a sender that keeps waking would itself be the load on the machine.
  const next_ms = Math.min(...left.map((gauge) => due_ms(gauge, written[gauge]?.length ?? 0)));
  await new Promise((resolve) => void setTimeout(resolve, Math.max(1, next_ms - performance.now())));
}
process.stdout.write(`${JSON.stringify(written)}\n`);
await new Promise((resolve) => void process.stdin.once('data', resolve));
await Promise.all(cables.map((cable) => cable.end()));
process.exit(0);

async function sendDue(gauge: number): Promise<void> {
  const times = written[gauge] ?? [];
  const most = (rates[gauge] ?? 0) * seconds;
  let text = '';
  for (let n = times.length; n < most && due_ms(gauge, n) <= performance.now(); n += 1)
    text += `${(n / 1000).toFixed(3)} mm\r\n`;
  if (text === '') return;
  const now = performance.timeOrigin + performance.now();
  for (let rest = text.indexOf('\n'); rest >= 0; rest = text.indexOf('\n', rest + 1)) times.push(now);
  await cables[gauge]?.write(Buffer.from(text));
}
