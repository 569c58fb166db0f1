import { runCommandLine } from './run.ts';
import { verbsFor } from './verbs.ts';

// Whoever reads our answers may have had enough of them: `watch … | head`.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 1));

const words = process.argv.slice(2);
process.exitCode = await runCommandLine(await verbsFor(words[0]), words, {
  answer: (value) => process.stdout.write(`${JSON.stringify(value)}\n`),
  say: (sentence) => process.stderr.write(`${sentence}\n`),
});
