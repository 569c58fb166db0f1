import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { BenchSigning } from '../../shared/job/certifying/certificateData.ts';
import { namedAsSet } from '../certificate/issue.ts';
import type { Database } from '../store/database.ts';
import { codeOf, databaseProblem } from '../store/databaseProblem.ts';
import type { Identity } from '../store/identity.ts';
import { openSettings } from '../store/settings.ts';
import type { Way } from './connect.ts';
import { type Line, openStock, type Shared, type Stock } from './gather.ts';
import { greet } from './greet.ts';
import type { Cursor, Notes, Refusal } from './notes.ts';
import { longestEntry_bytes } from './hold.ts';
import { hashesOf, notHeld, type Put } from './put.ts';
import { nothingPut, putWhole } from './putWhole.ts';
import { summariesOf } from './summarise.ts';
import { bytesOf, type Load, type SentEntry, type SentSummary } from './sending.ts';

/** A bench that sends: who it is, its records, and what it notes of archives. */
export interface Sender {
  readonly database: Database;
  readonly stock: Stock;
  /** This bench as it is called now. */
  readonly bench: () => BenchSigning;
  /** What the list says of a build whose notebook ends at a line or before it. */
  readonly summary: (build: string, upto: number) => SentSummary | undefined;
  readonly notes: Notes;
}

export const senderOf = (database: Database, { bench }: Pick<Identity, 'bench'>, notes: Notes): Sender => ({
  database,
  stock: openStock(database, bench.id),
  bench: () => namedAsSet(bench, openSettings(database, () => undefined).read()),
  summary: summariesOf(database),
  notes,
});

/** What was sent, and is not for nothing: what was there already is not counted. */
export interface Sent extends Pick<Put, 'entries' | 'readings' | 'photos'> {
  readonly refused: readonly Refusal[];
}

interface Sending {
  readonly signal?: AbortSignal | undefined;
  /** Told after every load that the archive has taken, and what came of it. */
  readonly onTaken?: ((put: Put) => void) | undefined;
}

/** So much is on its way at a time, and as much is being made ready behind it. */
const load_bytes = 4 * 2 ** 20;
const mostLines = 500;

/**
 * Sends everything that is not in the archive yet. Where this bench's own disk refuses it is a problem: what was sent and could not
 * be noted goes again.
 * @throws what the network or the server say
 */
export async function sendAll(way: Way, sender: Sender, sending: Sending = {}): Promise<Result<Sent>> {
  try {
    return await sendOverWay(way, sender, sending);
  } catch (error) {
    if (!codeOf(error).startsWith('SQLITE_')) throw error;
    return fail(databaseProblem(error, sender.database.folder));
  }
}

async function sendOverWay(way: Way, sender: Sender, { signal, onTaken }: Sending): Promise<Result<Sent>> {
  const greeted = await greet(way, sender.bench());
  if (!greeted.ok) return greeted;
  const { archive } = greeted.value;
  if (!(await isStillThere(way, sender, archive))) sender.notes.beginAnew(archive);
  const sum = { entries: 0, readings: 0, photos: 0, refused: [] as Refusal[] };
  let seen = await lookAfter(way, sender, sender.notes.read(archive).line);
  let making = seen.lines.length > 0 ? makeReady(sender, seen) : undefined;
  while (making !== undefined) {
    const { load, upto, tooLong } = await making;
    if (signal?.aborted === true) break;
    seen = await lookAfter(way, sender, upto.line);
    const putting = load.entries.length === 0 ? nothingPut : putWhole(way, greeted.value.me, load);
    making = seen.lines.length > 0 ? makeReady(sender, seen) : undefined;
    // It is waited for in the next turn; where putting fails, what comes of it is of no interest.
    making?.catch(() => undefined);
    const put = withRefused(await putting, tooLong);
    take(sender, archive, upto, put);
    for (const each of ['entries', 'readings', 'photos'] as const) sum[each] += put[each];
    sum.refused.push(...put.refused);
    onTaken?.(put);
  }
  return ok(sum);
}

/** Notes the archive's word: the cursor goes on together with what it said. */
function take({ notes, database }: Sender, archive: string, { line, id }: Line, put: Put): void {
  const at = new Date(database.clock.wall_ms()).toISOString();
  const cursor = { line, entry: id, own: put.newest ?? notes.read(archive).own, at };
  notes.take(archive, { cursor, refused: put.refused, beside: put.beside });
}

/** So many of the last lines are asked for, to see whether the archive still has them. */
const lastLines = 500;

/**
 * Whether the archive still has what the cursor says, and the notebooks are still those it was noted for. One of the two may
 * have been brought back from an earlier day. Entries arrive in order, so that the last ones answer for those before them.
 */
async function isStillThere(way: Way, { database, notes }: Sender, archive: string): Promise<boolean> {
  const { line, entry, own }: Cursor = notes.read(archive);
  if (line === 0) return true;
  const find = database.sql.prepare<[number], string>('SELECT id FROM notebook_entry WHERE line = ?').pluck();
  if (find.get(line) !== entry) return false;
  const last = database.sql
    .prepare<[number, number], string>('SELECT id FROM notebook_entry WHERE line <= ? ORDER BY line DESC LIMIT ?')
    .pluck()
    .all(line, lastLines);
  const refused = notes.refused(archive);
  const asked = [...new Set([...last, ...(own === '' ? [] : [own])])].filter((id) => !refused.has(id));
  return (await hashesOf(way, asked)).size === asked.length;
}

/** The next lines, and the hashes of those that the archive has already. */
interface Seen {
  readonly lines: readonly Line[];
  readonly there: ReadonlyMap<string, Buffer>;
}

async function lookAfter(way: Way, { stock }: Sender, line: number): Promise<Seen> {
  const lines = stock.linesAfter(line, mostLines);
  if (lines.length === 0) return { lines, there: new Map() };
  return {
    lines,
    there: await hashesOf(
      way,
      lines.map(({ id }) => id),
    ),
  };
}

interface Ready {
  readonly load: Load;
  /** Entries that nobody could unpack again: they stay here. */
  readonly tooLong: readonly Refusal[];
  /** The last line of it. */
  readonly upto: Line;
}

/**
 * Makes a load ready, as large as one may be: nothing is fetched for entries that the archive has already. One that is there
 * otherwise goes along, and is refused there.
 * @throws where there are no lines
 */
async function makeReady({ stock, summary }: Sender, { lines, there }: Seen): Promise<Ready> {
  const entries: SentEntry[] = [];
  const tooLong: Refusal[] = [];
  const shared: Shared = new Map();
  let bytes = 0;
  let [upto] = lines;
  for (const line of lines) {
    if (Buffer.byteLength(line.json) > longestEntry_bytes) tooLong.push(notHeld(line, 'it is longer than 16 MB'));
    else if (there.get(line.id)?.equals(line.sha256) !== true) {
      const entry = await stock.gathered(line, shared);
      bytes += bytesOf(entry);
      if (entries.length > 0 && bytes > load_bytes) break;
      entries.push(entry);
    }
    upto = line;
  }
  if (upto === undefined) throw new RangeError('a load without lines');
  const { line: end } = upto;
  const builds = new Set(entries.map(({ build }) => build));
  return {
    load: { entries, summaries: [...builds].flatMap((build) => summary(build, end) ?? []) },
    upto,
    tooLong,
  };
}

const withRefused = (put: Put, refused: readonly Refusal[]): Put =>
  refused.length === 0 ? put : { ...put, refused: [...put.refused, ...refused] };
