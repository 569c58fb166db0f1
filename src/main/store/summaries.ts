import { type Build, readNotebook } from '../../shared/job/records/build.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import { type Kind, kindOf } from '../../shared/job/shop/kind.ts';
import { type BuildSummary, summaryOf } from '../../shared/job/shop/summary.ts';
import { wordsTyped } from '../../shared/job/shop/typed.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { endOfWords } from './soughtIn.ts';
import { certifiedLine, sheetIndex, sheetsIn, wordIndex } from './summaryIndexes.ts';

/** Raised whenever a summary is made otherwise or holds more: summaries of before are made anew from their notebooks. */
export const summaryVersion = 2;

/** Summaries of builds, for whoever writes notebooks. Call inside `database.write`, in the transaction of the entry. */
export interface SummaryWriter {
  /** Puts down what a notebook says that goes up to this line. */
  put(notebook: Notebook, last: number): void;
  /** Takes out what stands for a build of which no entry is there any more. */
  drop(build: string): void;
  /** Puts down that a notebook cannot be read, and why. */
  putProblem(build: string, last: number, problem: Problem): void;
}

interface Row extends Kind {
  readonly build: string;
  readonly last: number;
  readonly upto: number;
  readonly version: number;
  readonly lies: string;
  readonly stage: string;
  readonly next_do: string;
  readonly started: string;
  readonly trials: number;
  readonly changes: number | null;
  readonly certified: number | null;
  readonly comeback: string | null;
  readonly record: string | null;
  readonly problem: string | null;
  readonly words: string;
}

const unknown = {
  lies: '',
  stage: '',
  next_do: '',
  started: '',
  trials: 0,
  changes: null,
  certified: null,
  comeback: null,
  axle: '',
  customer: '',
  set: '',
  teeth: '',
  hand: '',
  record: null,
  problem: null,
  words: '',
} as const;

const columns =
  'build, last, upto, version, lies, stage, next_do, started, trials, changes, certified, comeback, axle, customer, gear_set, teeth, hand, record, problem, words';

export function summaryWriter({ sql }: Pick<Database, 'sql'>): SummaryWriter {
  const put = sql.prepare<[Row]>(`
    INSERT INTO build_summary (${columns})
    VALUES (${columns
      .split(', ')
      .map((name) => (name === 'gear_set' ? '@set' : `@${name}`))
      .join(', ')})
    ON CONFLICT (build) DO UPDATE SET ${columns
      .split(', ')
      .map((name) => `${name} = excluded.${name}`)
      .join(', ')}`);
  const words = wordIndex(sql);
  const sheets = sheetIndex(sql);
  const line = sql.prepare<[string], number>('SELECT line FROM notebook_entry WHERE id = ?').pluck();
  const lineOf = (entry: string): number | undefined => line.get(entry);
  const write = (row: Row): void => {
    const before = words.of(row.build);
    put.run(row);
    if (before !== row.words) words.put(row.build, row.words);
  };
  return {
    put(notebook, last) {
      const { id, entries } = notebook;
      const build = readNotebook(id, entries);
      const summary = summaryOf(build, entries);
      const certified = certifiedLine(entries, lineOf);
      write({
        ...rowOf(build, summary),
        last,
        upto: last,
        certified,
        words: `${wordsTyped(id, entries)}${endOfWords}`,
      });
      sheets.put(id, sheetsIn(entries, lineOf));
    },
    drop(build) {
      sheets.put(build, new Map());
      sql.prepare('DELETE FROM build_summary WHERE build = ?').run(build);
    },
    putProblem(build, last, problem) {
      write({ ...unknown, build, last, upto: last, version: summaryVersion, problem: JSON.stringify(problem) });
      sheets.put(build, new Map());
    },
  };
}

/** A summary as it lies in the records, and the words typed into its build. */
interface Kept {
  readonly record: unknown;
  readonly words: string;
}

/** Reads summaries; undefined where there is none of this version that goes up to this line of the notebook. */
export function summaryReader({ sql }: Pick<Database, 'sql'>): (build: string, last: number) => Kept | undefined {
  const find = sql.prepare<[string, number, number], { record: string; words: string }>(
    'SELECT record, words FROM build_summary WHERE build = ? AND upto = ? AND version = ? AND record IS NOT NULL',
  );
  return (build, last) => {
    const row = find.get(build, last, summaryVersion);
    if (row === undefined) return undefined;
    const { record, words } = row;
    return {
      record: JSON.parse(record) as unknown,
      words: words.endsWith(endOfWords) ? words.slice(0, -endOfWords.length) : words,
    };
  };
}

const rowOf = (build: Build, summary: BuildSummary): Omit<Row, 'last' | 'upto' | 'certified' | 'words'> => ({
  ...unknown,
  ...kindOf(build, summary),
  build: build.id,
  version: summaryVersion,
  lies: summary.lies,
  stage: summary.stage,
  next_do: summary.next.do,
  started: summary.startedAt,
  trials: summary.trials,
  changes: summary.changes ?? null,
  comeback: summary.comebackOf ?? null,
  record: JSON.stringify(summary),
});
