import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Database } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { type Answer, type RowsApart, rowsApart } from './apart/rowsApart.ts';
import type { Entry, JournalRow } from './entry.ts';
import { heldRows } from './heldRows.ts';
import { putElsewhere } from './putElsewhere.ts';
import type { RowWriter } from './writeRows.ts';

/** Readings wait at most this long for company before they are written (the promise is 16 ms; a timer may be late). */
const groupFor_ms = 8;
const retryAfter_ms = 500;
/** More rows than four fast gauges send between two notes of how far the journal goes. */
const mostUnnoted = 20_000;

/** The one place where row numbers are given out and rows wait for the disk. */
interface Group {
  readonly append: (entry: Entry) => number;
  readonly flush: () => Result<void>;
  readonly last: () => number;
  readonly durable: () => number;
  readonly close: () => Result<void>;
}

interface Grouping {
  readonly writer: RowWriter;
  readonly database: Database;
  readonly onProblem: (problem?: Problem) => void;
}

/**
 * Rows are written a few milliseconds after they came, in a thread of their own once there are readings: a sync takes from a
 * fifth of a millisecond to many, and the next reading does not wait for it. Whoever needs them at once (`flush`) waits for
 * the thread and writes the rest here; here as well is written what the disk has refused.
 */
export function createGroup({ writer, database, onProblem }: Grouping): Group {
  const first = writer.lastSeq();
  const disk = whatTheDiskSays(first, { database, onProblem });
  // Rows that were lost had numbers, and measurements may rest on them: they are not given out again.
  const noted = database.witness.journal;
  const held = heldRows(database.clock, first < noted ? noted + mostUnnoted : first);
  /** Rows set out, and nobody has said yet what became of them; a time to write came while they were. */
  let [underWay, due] = [false, false];

  const timer = onceLater(() => writeSoon());
  const refusedWith = (refused: Problem): Result<void> => {
    timer.in(retryAfter_ms);
    return disk.refused(refused);
  };
  const answered = (answer: Answer): void => {
    underWay = false;
    if (answer === undefined) disk.written(held.arrived());
    else {
      held.cameBack();
      refusedWith(worldly(answer, database.path));
    }
    if (due) writeSoon();
  };
  const apart = rowsApart({ file: database.path, onAnswer: answered });
  const writeSoon = (): void => {
    due = underWay;
    if (due) return;
    if (disk.problem() === undefined && mayGoApart(apart, held.told('')) && database.place.problem() === undefined) {
      underWay = true;
      apart.send(held.setOut(tooSlow));
    } else flush();
  };
  const flush = (): Result<void> => {
    apart.wait();
    if (underWay) return fail(hangs(database.path));
    const problem = disk.problem();
    const rows = held.told(problem?.sentence ?? tooSlow);
    if (rows.length === 0) return ok(undefined);
    const refused = writeHere({ writer, database }, rows, problem !== undefined);
    if (refused !== undefined) return refusedWith(refused);
    held.taken();
    return disk.written(held.last());
  };
  const close = (): Result<void> => {
    const flushed = flush();
    timer.stop();
    apart.end();
    return flushed.ok ? flushed : fail(putElsewhere(held.rows(), held.lost(), flushed.problem));
  };
  return {
    append(entry) {
      if (held.add(entry)) timer.in(disk.problem() === undefined ? groupFor_ms : retryAfter_ms);
      return held.last();
    },
    flush,
    last: held.last,
    durable: disk.durable,
    close,
  };
}

/** One thing done later, once for all who asked for it meanwhile: the first of them says when. */
function onceLater(work: () => void) {
  let timer: NodeJS.Timeout | undefined;
  const stop = (): void => {
    clearTimeout(timer);
    timer = undefined;
  };
  return {
    in(wait_ms: number): void {
      timer ??= setTimeout(() => {
        timer = undefined;
        work();
      }, wait_ms);
    },
    stop,
  };
}

/** How far the rows are safe, and why it goes no further; told where it changes. */
function whatTheDiskSays(first: number, { database, onProblem }: Pick<Grouping, 'database' | 'onProblem'>) {
  let durable = first;
  let problem: Problem | undefined;
  return {
    durable: () => durable,
    problem: () => problem,
    written(seq: number): Result<void> {
      durable = seq;
      if (problem !== undefined) onProblem();
      problem = undefined;
      database.witness.noteSoon();
      return ok(undefined);
    },
    refused(refused: Problem): Result<void> {
      if (problem?.kind !== refused.kind) onProblem(refused);
      problem = refused;
      return fail(refused);
    },
  };
}

/** The first readings begin the thread, and are written here until it is there. */
function mayGoApart(apart: RowsApart, rows: readonly JournalRow[]): boolean {
  if (apart.isFree()) return rows.length > 0;
  if (rows.some(({ kind }) => kind === 'reading')) apart.begin();
  return false;
}

/**
 * Writes rows, or says why not. A disk may say no after it has taken rows: that they can be read does not say that they are
 * safe, so that after a refusal they are written once more, each in its own place.
 */
function writeHere(
  { writer, database }: Pick<Grouping, 'writer' | 'database'>,
  rows: readonly JournalRow[],
  again: boolean,
): Problem | undefined {
  try {
    const gone = database.place.problem();
    if (gone !== undefined) return gone;
    if (again) writer.writeAgain(rows);
    else writer.write(rows);
    return undefined;
  } catch (error) {
    return databaseProblem(error, database.path);
  }
}

/** What the thread met, as if it had been met here. @throws where it is no fault of the world */
const worldly = ({ code, message }: Exclude<Answer, undefined>, path: string): Problem =>
  databaseProblem(Object.assign(new Error(message), { code }), path);

const tooSlow = 'The disk was too slow.';

const hangs = (path: string): Problem => ({
  kind: 'disk-error',
  sentence: `The disk that holds ${path} has not answered for half a minute.`,
  remedy: 'Back up the data folder now and check the disk.',
});
