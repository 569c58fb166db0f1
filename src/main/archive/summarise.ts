import { readNotebook } from '../../shared/job/records/build.ts';
import { folded } from '../../shared/job/shop/folded.ts';
import { type BuildSummary, buildSummarySchema, summaryOf } from '../../shared/job/shop/summary.ts';
import { wordsTyped } from '../../shared/job/shop/typed.ts';
import type { Database } from '../store/database.ts';
import { openNotebooks } from '../store/notebooks.ts';
import { summaryReader } from '../store/summaries.ts';
import type { SentSummary } from './sending.ts';

/**
 * What the list says of builds, once everything written in one goes with this load or went before: as the records have it, and
 * from the notebook where they do not have it as this version would make it.
 */
export function summariesOf(database: Database): (build: string, upto: number) => SentSummary | undefined {
  const { sql } = database;
  const size = sql.prepare<[string], { last: number | null; entries: number }>(
    'SELECT max(line) AS last, count(*) AS entries FROM notebook_entry WHERE build = ?',
  );
  const kept = summaryReader(database);
  const notebooks = openNotebooks(database);
  return (build, upto) => {
    const { last, entries } = size.get(build) ?? { last: null, entries: 0 };
    if (last === null || last > upto) return undefined;
    const known = kept(build, last);
    const summary = buildSummarySchema.safeParse(known?.record).data;
    if (known !== undefined && summary !== undefined) return sent(summary, entries, known.words);
    const read = notebooks.read(build);
    if (read?.ok !== true) return undefined;
    const notebook = read.value.entries;
    return sent(summaryOf(readNotebook(build, notebook), notebook), notebook.length, wordsTyped(build, notebook));
  };
}

const sent = (summary: BuildSummary, entries: number, words: string): SentSummary => ({
  build: summary.id,
  entries,
  record: JSON.stringify(summary),
  heading: headingOf(summary),
  words,
});

/** What a person remembers of a build and may misspell. */
const headingOf = ({ title, technician, axle, customer, plate }: BuildSummary): string =>
  folded([title, technician, axle, customer, plate].filter((text) => text !== undefined).join(' '));
