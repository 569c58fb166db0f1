import { fail, type Result } from '../../basics/result.ts';

/** What can stand between a build and its plan. */
export type Why =
  | 'not-described'
  | 'no-diameter'
  | 'no-window'
  | 'no-trial'
  | 'no-pack'
  | 'no-target'
  | 'no-such-set'
  | 'impossible-make-up';

export const missing = <Kind extends Why>(kind: Kind, sentence: string, remedy: string): Result<never, Kind> =>
  fail({ kind, sentence, remedy });
