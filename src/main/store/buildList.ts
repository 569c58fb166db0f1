import type { Alike, Sought, Which } from '../../shared/job/shop/sought.ts';
import { type BuildSummary, buildSummarySchema } from '../../shared/job/shop/summary.ts';
import { type SpecSheet, specSheetSchema } from '../../shared/job/records/specSheet.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { type Where, type WordsIn, wordsIn } from './soughtIn.ts';
import { summaryVersion } from './summaries.ts';
import { isDamagedIndex } from './summaryIndexes.ts';

/** A build as the list knows it: its summary, why it cannot be read, or neither while it is still to be read. */
export interface Listed {
  readonly build: string;
  readonly summary?: BuildSummary;
  readonly problem?: Problem;
}

/** How many builds there are, in all and of each sort. */
type BuildCounts = Readonly<Record<Which | 'all', number>> & {
  /** Not read yet since this program was put in: they are not found by their words so far. */
  readonly unread: number;
};

/** A build without a summary of today, and the last line of its notebook. */
interface Behind {
  readonly build: string;
  readonly last: number;
}

/** Builds as their summaries tell them; nothing here opens a notebook. */
export interface BuildList {
  /** The builds behind `before`, or from the first, the one written in last first. Empty where there is no such build. */
  page(sought: Sought, limit: number, before?: string): readonly Listed[];
  summary(build: string): BuildSummary | undefined;
  counts(): BuildCounts;
  unreadable(limit: number): readonly { readonly id: string; readonly problem: Problem }[];
  /** Builds whose summary is to be made, the one written in last first; those written in before the line `before`. */
  behind(limit: number, before: number): readonly Behind[];
  /** Certified builds that may have something in common with one, the one certified last first. */
  certifiedLike(of: { readonly teeth: string; readonly hand: string }): readonly string[];
  /** The newest spec sheet of each name. */
  sheets(): readonly SpecSheet[];
}

interface Row {
  readonly build: string;
  readonly isBehind: 0 | 1;
  readonly record: string | null;
  readonly problem: string | null;
}

const isBehind = `(version <> ${summaryVersion} OR upto <> last)`;
/** The same looked up in the notebook itself, for the builds of one page: another hand may have written in it. */
const isBehindNow = `(version <> ${summaryVersion} OR upto <>
  (SELECT max(line) FROM notebook_entry WHERE notebook_entry.build = build_summary.build))`;
const isDue = `next_do = 'comeback' AND NOT EXISTS (SELECT 1 FROM build_summary AS later WHERE later.comeback = build_summary.build)`;

const conditions: Readonly<Record<Which, string>> = {
  'on-the-bench': "lies = 'on-the-bench'",
  'put-away': "lies = 'put-away'",
  'thrown-away': "lies = 'thrown-away'",
  unfinished: "lies = 'on-the-bench' AND stage <> 'certified'",
  // One that went on after its certificate, or was certified with something missing, is unfinished and counts there alone.
  certified: "lies <> 'thrown-away' AND stage = 'certified'",
  'comeback-due': `lies <> 'thrown-away' AND ${isDue}`,
};

const columnOf: Readonly<Record<Alike, string>> = { axle: 'axle', customer: 'customer', set: 'gear_set' };

export function openBuildList({ sql }: Pick<Database, 'sql'>): BuildList {
  const one = sql.prepare<[string], Row>(
    `SELECT build, ${isBehindNow} AS isBehind, record, problem FROM build_summary WHERE build = ?`,
  );
  const behind = sql.prepare<[number, number], Behind>(
    `SELECT build, last FROM build_summary WHERE last < ? AND ${isBehind} ORDER BY last DESC LIMIT ?`,
  );
  const unreadable = sql.prepare<[number], { build: string; problem: string }>(
    'SELECT build, problem FROM build_summary WHERE problem IS NOT NULL ORDER BY last DESC LIMIT ?',
  );
  const certified = sql
    .prepare<[string, string], string>(
      `SELECT build FROM build_summary WHERE certified IS NOT NULL AND (teeth = ? OR hand = ?) ORDER BY certified DESC`,
    )
    .pluck();
  // The name index tells the newest line of each name; only those sheets are fetched.
  const sheets = sql
    .prepare<[], string>(
      `SELECT record FROM (SELECT name, max(line) AS newest FROM build_sheet GROUP BY name)
       JOIN build_sheet INDEXED BY build_sheet_name USING (name) WHERE line = newest`,
    )
    .pluck();
  const inWords = wordsIn(sql);
  return {
    page(sought, limit, before) {
      const found = (isIndexWhole: boolean): readonly Listed[] => {
        const { where, values } = whereOf(sought, before, (words) => inWords.where(words, isIndexWhole));
        return sql
          .prepare<unknown[], Row>(
            // Which builds go on the page is found first: their records are not fetched for all that were found.
            `SELECT build, ${isBehindNow} AS isBehind, record, problem FROM build_summary WHERE number IN
              (SELECT number FROM build_summary WHERE ${where} ORDER BY last DESC LIMIT ?) ORDER BY last DESC`,
          )
          .all(...values, limit)
          .map(listed);
      };
      try {
        return found(true);
      } catch (error) {
        if (!isDamagedIndex(error)) throw error;
        return found(false);
      }
    },
    summary(build) {
      const row = one.get(build);
      return row === undefined ? undefined : listed(row).summary;
    },
    counts: () => countsIn(sql),
    unreadable: (limit) =>
      unreadable.all(limit).map(({ build, problem }) => ({ id: build, problem: JSON.parse(problem) as Problem })),
    behind: (limit, before) => behind.all(before, limit),
    certifiedLike: ({ teeth, hand }) => certified.all(teeth, hand),
    sheets: () =>
      sheets
        .all()
        .flatMap((record) => specSheetSchema.safeParse(JSON.parse(record)).data ?? [])
        .toSorted((a, b) => a.name.localeCompare(b.name)),
  };
}

function listed({ build, isBehind: behind, record, problem }: Row): Listed {
  if (behind === 1) return { build };
  if (problem !== null) return { build, problem: JSON.parse(problem) as Problem };
  const summary = record === null ? undefined : buildSummarySchema.safeParse(JSON.parse(record)).data;
  return summary === undefined ? { build } : { build, summary };
}

type Words = (words: string) => ReturnType<WordsIn['where']>;

function whereOf({ words, which, alike }: Sought, before: string | undefined, ofWords: Words): Where {
  const parts: Where[] = [];
  if (before !== undefined)
    parts.push({ where: 'last < (SELECT last FROM build_summary WHERE build = ?)', values: [before] });
  if (which !== undefined) parts.push({ where: conditions[which], values: [] });
  if (alike !== undefined) {
    const column = columnOf[alike.in];
    const where = `${column} <> '' AND ${column} = (SELECT ${column} FROM build_summary WHERE build = ?)`;
    parts.push({ where, values: [alike.build] });
  }
  parts.push(...ofWords(words ?? ''));
  return {
    where: parts.length === 0 ? '1' : parts.map((part) => part.where).join(' AND '),
    values: parts.flatMap(({ values }) => values),
  };
}

function countsIn(sql: Database['sql']): BuildCounts {
  const sums = Object.entries(conditions)
    .filter(([which]) => which !== 'comeback-due')
    .map(([which, condition]) => `coalesce(sum(${condition}), 0) AS "${which}"`);
  const counted = sql
    .prepare<[], Omit<BuildCounts, 'comeback-due' | 'unread'>>(
      `SELECT count(*) AS "all", ${sums.join(', ')} FROM build_summary`,
    )
    .get();
  const count = (where: string): number =>
    Number(sql.prepare(`SELECT count(*) FROM build_summary WHERE ${where}`).pluck().get());
  const none = { all: 0, 'on-the-bench': 0, 'put-away': 0, 'thrown-away': 0, unfinished: 0, certified: 0 };
  return { ...(counted ?? none), 'comeback-due': count(conditions['comeback-due']), unread: count(isBehind) };
}
