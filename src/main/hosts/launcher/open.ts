// `npm start`: the bench for a person at this machine.
import { homedir } from 'node:os';
import { openDesk } from './desk.ts';
import { dataFolder } from './desktop.ts';
import { readOpenWords, usage } from './openWords.mjs';

const say = (sentence: string) => process.stderr.write(`axlewright: ${sentence}\n`);

async function open(words: readonly string[]): Promise<0 | 1 | 2> {
  const asked = readOpenWords(words);
  if (!asked.ok || asked.value.help) {
    say(asked.ok ? usage : `${asked.sentence}\n${usage}`);
    return asked.ok ? 0 : 2;
  }
  const { data, simulate, browser, port } = asked.value;
  const opened = await openDesk({
    folder: data ?? dataFolder(process.platform, process.env, homedir()),
    simulate,
    browser,
    alone: false,
    port,
    say,
    onLink: (link) => process.stdout.write(`${link}\n`),
  });
  if (!opened.ok) say(`${opened.problem.sentence} ${opened.problem.remedy}`);
  return opened.ok ? 0 : 1;
}

// Whatever a browser still holds open is not waited for.
process.exit(await open(process.argv.slice(2)));
