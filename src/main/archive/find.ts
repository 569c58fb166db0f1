import { soughtWords } from '../../shared/job/shop/folded.ts';
import { type BuildSummary, buildSummarySchema } from '../../shared/job/shop/summary.ts';
import type { Way } from './connect.ts';

/** A build of some bench, as the archive knows it. */
export interface Found {
  readonly summary: BuildSummary;
  /** The bench that wrote in it last. */
  readonly bench: { readonly id: string; readonly name: string };
}

export interface FoundBuilds {
  readonly builds: readonly Found[];
  /** Nothing has these words, and these are near: misspelt, perhaps. */
  readonly near: boolean;
}

interface Row {
  readonly record: unknown;
  readonly id: string;
  readonly name: string;
}

/** Less alike than this is another word (share of three-letter pieces in common, pg_trgm's word_similarity). */
const alike = 0.45;

/**
 * The builds of all benches in which every word was typed, whole or in part, the one that changed last first. Where nothing has
 * them, those whose heading (title, people, axle, plate) comes near.
 */
export async function findBuilds(way: Way, words: string, limit: number): Promise<FoundBuilds> {
  const sought = soughtWords(words);
  const like = sought.map((word) => `%${word.replaceAll(/[\\%_]/gu, '\\$&')}%`);
  const of = await way<Row[]>`
    SELECT record, bench.id, ${called(way)} AS name FROM
      (SELECT build, record, sent_by, turn FROM summary WHERE ${hasAll(way, like)} ORDER BY turn DESC LIMIT ${limit}) AS summary
    JOIN bench ON bench.number = sent_by ORDER BY turn DESC`;
  if (of.length > 0 || sought.length === 0) return { builds: of.flatMap(found), near: false };
  const near = await nearHeadings(way, sought.join(' '), limit);
  return { builds: near.flatMap(found), near: near.length > 0 };
}

const called = (way: Way) =>
  way`coalesce((SELECT name FROM bench_called WHERE bench = bench.number ORDER BY bench_called.number DESC LIMIT 1), bench.id)`;

/** Each word on its own, so that the index is asked for each. */
const hasAll = (way: Way, like: readonly string[]) =>
  like.length === 0
    ? way`true`
    : like.map((one) => way`words LIKE ${one}`).reduce((all, one) => way`${all} AND ${one}`);

const nearHeadings = (way: Way, words: string, limit: number): Promise<Row[]> =>
  way.begin(async (inside) => {
    await inside`SELECT set_config('pg_trgm.word_similarity_threshold', ${String(alike)}, true)`;
    return inside<Row[]>`
      SELECT record, bench.id, ${called(way)} AS name FROM
        (SELECT build, record, sent_by, turn, word_similarity(${words}, heading) AS alike FROM summary
         WHERE ${words} <% heading ORDER BY alike DESC, turn DESC LIMIT ${limit}) AS summary
      JOIN bench ON bench.number = sent_by ORDER BY alike DESC, turn DESC`;
  });

/** A summary of a later version that cannot be read here is left out of the list. */
function found({ record, id, name }: Row): readonly Found[] {
  const summary = buildSummarySchema.safeParse(record).data;
  return summary === undefined ? [] : [{ summary, bench: { id, name } }];
}
