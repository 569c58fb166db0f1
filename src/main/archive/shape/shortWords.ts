import type { Step } from './step.ts';

/** Words of one or two letters are in no index of three letters in a row: they are looked for in headings, off an index alone. */
export const shortWords: Step = {
  name: 'headings to be looked through',
  sql: 'CREATE INDEX summary_short ON summary (turn DESC) INCLUDE (heading)',
};
