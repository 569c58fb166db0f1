import type { ExitCode, Output, Verb } from '../verb.ts';
import { wrongUse } from '../verb.ts';
import { told } from '../told.ts';
import { archiveDeeds } from './archiveDeeds.ts';

/** The archive of several benches, from the command line. */
export const archive: Verb = {
  name: 'archive',
  ...told.archive,
  words: [1, 40],
  options: {
    to: { type: 'string' },
    once: { type: 'boolean' },
    limit: { type: 'string' },
    build: { type: 'string' },
  },
  async run(given, output): Promise<ExitCode> {
    const [deed = '', ...words] = given.words;
    const does = Object.hasOwn(archiveDeeds, deed) ? archiveDeeds[deed] : undefined;
    if (does === undefined) return unknownDeed(output, deed);
    if (deed !== 'find' && words.length > 0) return tooMany(output, deed, words);
    return does({ given, words: words.join(' '), output });
  },
};

const unknownDeed = (output: Output, deed: string): ExitCode =>
  wrongUse(output, {
    kind: 'wrong-word',
    field: 'archive',
    sentence: `There is no archive ${deed}.`,
    remedy: `There is archive ${Object.keys(archiveDeeds).join(', ')}.`,
  });

const tooMany = (output: Output, deed: string, words: readonly string[]): ExitCode =>
  wrongUse(output, {
    kind: 'wrong-word',
    field: 'archive',
    sentence: `archive ${deed} takes no further word, and there is "${words.join(' ')}".`,
    remedy: 'Leave it out.',
  });
