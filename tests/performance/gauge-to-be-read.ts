/** A gauge in a process of its own, so that its work is not counted with the bench's: rate and seconds are given. */
import { serveLine } from '../../hardware-sim/lines/line.ts';

const rate = Number(process.argv[2]);
const seconds = Number(process.argv[3]);
const line = await serveLine();
process.stdout.write(`${line.link}\n`);
await new Promise((resolve) => void process.stdin.once('data', resolve));

const began = performance.now();
let sent = 0;
/** When each line was written, on the wall clock that every process here shares. */
const written: number[] = [];
while (sent < rate * seconds) {
  const due = Math.min(rate * seconds, Math.floor(((performance.now() - began) / 1000) * rate));
  let text = '';
  for (; sent < due; sent += 1) text += `${(sent / 1000).toFixed(3)} mm\r\n`;
  while (written.length < sent) written.push(performance.timeOrigin + performance.now());
  if (text !== '') await line.write(Buffer.from(text));
  await new Promise((resolve) => void setTimeout(resolve, 1));
}
process.stdout.write(`written ${JSON.stringify(written)}\n`);
await new Promise((resolve) => void process.stdin.once('data', resolve));
process.stdout.write(`lost ${line.lost_bytes}\n`);
await line.end();
process.exit(0);
