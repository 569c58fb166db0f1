import { runCommandLine } from './run.ts';
import { verbs } from './verbs.ts';

process.exitCode = await runCommandLine(verbs, process.argv.slice(2), {
  answer: (value) => process.stdout.write(`${JSON.stringify(value)}\n`),
  say: (sentence) => process.stderr.write(`${sentence}\n`),
});
