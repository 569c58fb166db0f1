import { parseArgs } from 'node:util';
import { told } from './told.ts';
import type { ExitCode, Given, Output, Verb } from './verb.ts';

/** Runs one command line. Pure in its streams, so that tests call it as the shell does. */
export async function runCommandLine(
  verbs: readonly Verb[],
  words: readonly string[],
  output: Output,
): Promise<ExitCode> {
  const [name, ...rest] = words;
  if (name === undefined || name === '--help' || name === 'help') {
    output.say(help());
    return name === undefined ? 2 : 0;
  }
  const verb = verbs.find((one) => one.name === name);
  if (verb === undefined) {
    output.say(`There is no verb "${name}".\n${help()}`);
    return 2;
  }
  const given = read(verb, rest);
  if (typeof given === 'string') {
    output.say(`${given}\nusage: axlewright ${verb.usage}`);
    return 2;
  }
  try {
    return await verb.run(given, output);
  } catch (error) {
    output.say(faultWords(name, error));
    return 1;
  }
}

/** The outermost ring of the command line. A person gets one sentence; whoever mends it asks for the places too. */
function faultWords(verb: string, error: unknown): string {
  const { message, stack } = error instanceof Error ? error : new Error(String(error));
  const sentence = `axlewright ${verb} met a fault of its own: ${message}. Nothing more was done.`;
  return process.env['AXLEWRIGHT_STACK'] === '1' ? `${sentence}\n${stack ?? ''}` : sentence;
}

/** The options of every verb; --json is the form all answers have and may be written out. */
const common: Verb['options'] = { json: { type: 'boolean', default: false }, data: { type: 'string' } };

function read(verb: Verb, words: readonly string[]): Given | string {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      options: { ...common, ...verb.options },
      allowPositionals: true,
      strict: true,
    });
    const [least, most] = typeof verb.words === 'object' ? verb.words : [verb.words ?? 0, verb.words ?? 0];
    if (positionals.length < least || positionals.length > most)
      return `${verb.name} takes ${least === most ? least : `${least} to ${most}`} words beside its options, not ${positionals.length}.`;
    const empty = Object.entries(values).find(([, value]) => value === '');
    if (empty !== undefined) return `--${empty[0]} is empty. Give it a value, or leave it out.`;
    return {
      words: positionals,
      text: (name) => {
        const value = values[name];
        return typeof value === 'string' ? value : undefined;
      },
      flag: (name) => values[name] === true,
    };
  } catch (error) {
    // parseArgs names the option in its message; that is all a person needs.
    return error instanceof Error ? error.message : String(error);
  }
}

const help = (): string =>
  ['axlewright VERB …', ...Object.values(told).map(({ usage, summary }) => `  ${usage.padEnd(60)} ${summary}`)].join(
    '\n',
  );
