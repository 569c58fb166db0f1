// `npm start`: the bench for a person at this machine.
import { homedir } from 'node:os';
import { parseArgs } from 'node:util';
import { openDesk } from './desk.ts';
import { dataFolder } from './desktop.ts';

const { values } = parseArgs({
  options: {
    simulate: { type: 'boolean', default: false },
    data: { type: 'string' },
    browser: { type: 'boolean', default: false },
    port: { type: 'string', default: '0' },
  },
});
const say = (sentence: string) => process.stderr.write(`axlewright: ${sentence}\n`);
const opened = await openDesk({
  folder: values.data ?? dataFolder(process.platform, process.env, homedir()),
  simulate: values.simulate,
  browser: values.browser,
  port: Number(values.port),
  say,
  onLink: (link) => process.stdout.write(`${link}\n`),
});
if (!opened.ok) say(`${opened.problem.sentence} ${opened.problem.remedy}`);
// Whatever a browser still holds open is not waited for.
process.exit(opened.ok ? 0 : 1);
