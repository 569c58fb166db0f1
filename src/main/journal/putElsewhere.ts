import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Problem } from '../../shared/basics/result.ts';
import type { JournalRow } from './entry.ts';

/**
 * The last thing to be done for rows that the disk refused until the bench ends: they are written to the system's folder
 * for temporary files, one JSON object a line, and counted aloud either way.
 * @param lost rows that were never held, because there were too many.
 * @returns what a person has to know: how many rows, from when, and where they are.
 */
export function putElsewhere(rows: readonly JournalRow[], lost: number, why: Problem): Problem {
  const began = new Date(rows[0]?.at ?? 0).toISOString();
  const many = `${rows.length} ${rows.length === 1 ? 'row' : 'rows'} of readings, the first of ${began},`;
  const more = lost === 0 ? '' : ` ${lost} more could not even be held.`;
  const file = join(tmpdir(), `axlewright-unwritten-${began.replaceAll(/[:.]/gu, '-')}.jsonl`);
  try {
    writeFileSync(file, rows.map(asLine).join(''), { mode: 0o600, flag: 'wx' });
    return {
      kind: 'put-elsewhere',
      sentence: `${why.sentence} ${many} were put into ${file} instead.${more}`,
      remedy: 'Keep that file: no measurement in the records rests on these readings.',
    };
  } catch {
    return {
      kind: 'lost',
      sentence: `${why.sentence} ${many} are lost with the end of the bench.${more}`,
      remedy: 'What was recorded in builds is on disk; take again what was being measured.',
    };
  }
}

const asLine = ({ seq, ...row }: JournalRow): string =>
  `${JSON.stringify({ seq, ...row, ...('raw' in row ? { raw: Buffer.from(row.raw).toString('latin1') } : {}) })}\n`;
