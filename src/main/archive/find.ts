import { soughtWords } from '../../shared/job/shop/folded.ts';
import { type BuildSummary, buildSummarySchema } from '../../shared/job/shop/summary.ts';
import type { Question, Way } from './connect.ts';

/** A build of some bench, as the archive knows it. */
interface Found {
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
 * The builds of all benches in which every word was typed, whole or in part, the one that changed last first; words of one or two
 * letters are looked for in the heading alone (title, people, axle, plate). Where nothing has them, those whose heading comes near.
 */
export async function findBuilds(way: Way, words: string, limit: number): Promise<FoundBuilds> {
  const sought = soughtWords(words);
  const newest = await linesOf(way, newestWith(way, sought, limit));
  const of = newest.length === limit ? newest : await linesOf(way, allWith(way, sought, limit));
  if (of.length > 0 || sought.length === 0) return { builds: of.flatMap(found), near: false };
  const near = await nearHeadings(way, misspelt(sought), limit);
  return { builds: near.flatMap(found), near: near.length > 0 };
}

/** Enough to fill a page with what many builds have; what few have is looked up in the index. */
const newestFew = 2000;

/**
 * Two ways, because the server cannot tell beforehand which is the shorter one: it guessed that a number was common, and walked
 * through a hundred thousand lines for it.
 */
const newestWith = (way: Way, sought: readonly string[], limit: number): Question => way`
  SELECT * FROM (SELECT * FROM summary ORDER BY turn DESC LIMIT ${newestFew}) AS newest
  WHERE ${sought.map((word) => stands(way, word)).reduce(both(way), way`true`)} ORDER BY turn DESC LIMIT ${limit}`;

const allWith = (way: Way, sought: readonly string[], limit: number): Question => way`
  SELECT summary.* FROM summary WHERE build IN
    (WITH has AS MATERIALIZED (SELECT build, turn FROM summary
       WHERE ${sought.map((word) => isIndexed(way, word)).reduce(both(way), way`true`)})
     SELECT build FROM has ORDER BY turn DESC LIMIT ${limit})`;

const linesOf = (way: Way, summaries: Question): Promise<Row[]> => way<Row[]>`
  SELECT record, bench.id, ${called(way)} AS name FROM (${summaries}) AS summary
  JOIN bench ON bench.number = sent_by ORDER BY turn DESC`;

const called = (way: Way) =>
  way`coalesce((SELECT name FROM bench_called WHERE bench = bench.number ORDER BY bench_called.number DESC LIMIT 1), bench.id)`;

/** Each word on its own, so that the index is asked for each. */
const both =
  (way: Way) =>
  (all: Question, one: Question): Question =>
    way`${all} AND ${one}`;

/** The index of words has every three letters in a row; shorter words are looked for in the headings. */
const shortest = 3;
const isShort = (word: string): boolean => Array.from(word).length < shortest;

function stands(way: Way, word: string): Question {
  const like = `%${word.replaceAll(/[\\%_]/gu, '\\$&')}%`;
  return isShort(word) ? way`heading LIKE ${like}` : way`words LIKE ${like}`;
}

const isIndexed = (way: Way, word: string): Question =>
  isShort(word) ? way`short_pieces(heading) @> ARRAY[${word}]::text[]` : stands(way, word);

/** Whoever misspells types a word or two; more than that is as dear as it is long, for every heading that comes near. */
const longestMisspelt = 60;

/** What may be misspelt of what was typed; nothing, where three letters in a row are nowhere in it: everything would come near. */
function misspelt(sought: readonly string[]): string {
  const typed = Array.from(sought.join(' ')).slice(0, longestMisspelt).join('');
  return /[\p{L}\p{N}]{3}/u.test(typed) ? typed : '';
}

/** To say how near a heading comes takes longer than to find it: where many are near, a page of the newest of them will do. */
const newestNear = 1000;

async function nearHeadings(way: Way, words: string, limit: number): Promise<readonly Row[]> {
  if (words === '') return [];
  return way.begin(async (inside) => {
    await inside`SELECT set_config('pg_trgm.word_similarity_threshold', ${String(alike)}, true)`;
    const nearIn = (lines: Question): Promise<Row[]> => inside<Row[]>`
      SELECT record, bench.id, ${called(way)} AS name FROM
        (SELECT build, record, sent_by, turn, word_similarity(${words}, heading) AS alike FROM ${lines} AS summary
         WHERE ${words} <% heading ORDER BY alike DESC, turn DESC LIMIT ${limit}) AS summary
      JOIN bench ON bench.number = sent_by ORDER BY alike DESC, turn DESC`;
    const newest = await nearIn(way`(SELECT * FROM summary ORDER BY turn DESC LIMIT ${newestNear})`);
    return newest.length === limit ? newest : nearIn(way`summary`);
  });
}

/** A summary of a later version that cannot be read here is left out of the list. */
function found({ record, id, name }: Row): readonly Found[] {
  const summary = buildSummarySchema.safeParse(record).data;
  return summary === undefined ? [] : [{ summary, bench: { id, name } }];
}
