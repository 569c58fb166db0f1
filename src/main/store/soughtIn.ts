import { soughtWords } from '../../shared/job/shop/folded.ts';
import type { Database } from './database.ts';

/** A condition on `build_summary`, with the values it asks for. */
export interface Where {
  readonly where: string;
  readonly values: readonly unknown[];
}

/** The index holds every three letters in a row (FTS5, trigram). */
const inIndex = 3;

/**
 * Behind the words of a build, so that a word of one or two letters at their end begins a trigram too. Raise the version of the
 * summaries with it.
 */
export const endOfWords = '\n\n';

/**
 * Up to so many builds it is quicker to ask the index for a short word and put what it gives in order; what stands in more is met
 * soon by going through the builds, the one written in last first.
 */
const rare = 1500;

/** Conditions on builds by the words in them. */
export interface WordsIn {
  /** Each word must be there, in any order, also inside another. */
  where(words: string, isIndexWhole: boolean): readonly Where[];
}

export function wordsIn(sql: Database['sql']): WordsIn {
  sql.exec("CREATE VIRTUAL TABLE IF NOT EXISTS temp.build_term USING fts5vocab('main', 'build_words', 'row')");
  const terms = sql.prepare<[string, string], { term: string; doc: number }>(
    'SELECT term, doc FROM temp.build_term WHERE term >= ? AND term < ?',
  );
  /** The trigrams that begin with a short word; undefined where they stand in many builds. */
  const beginning = (word: string): readonly string[] | undefined => {
    const found: string[] = [];
    let builds = 0;
    for (const { term, doc } of terms.iterate(word, `${word}\u{10ffff}`)) {
      builds += doc;
      if (builds > rare) return undefined;
      found.push(term);
    }
    return found;
  };
  const ofShort = (word: string): Where => {
    const found = beginning(word);
    if (found === undefined) return through(word);
    return found.length === 0 ? { where: '0', values: [] } : matching(found.map(quoted).join(' OR '));
  };
  return {
    where(words, isIndexWhole) {
      const sought = soughtWords(words);
      if (!isIndexWhole) return sought.map(through);
      const long = sought.filter((word) => Array.from(word).length >= inIndex);
      const short = sought.filter((word) => !long.includes(word));
      return [...(long.length === 0 ? [] : [matching(long.map(quoted).join(' AND '))]), ...short.map(ofShort)];
    },
  };
}

const quoted = (word: string): string => `"${word.replaceAll('"', '""')}"`;

const matching = (match: string): Where => ({
  where: 'number IN (SELECT rowid FROM build_words WHERE build_words MATCH ?)',
  values: [match],
});

const through = (word: string): Where => ({ where: 'instr(words, ?) > 0', values: [word] });
