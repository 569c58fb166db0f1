import { readFileSync } from 'node:fs';
import postgres from 'postgres';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { type Address, isLoopback } from './address.ts';
import { Line, type LineTo } from './line.ts';
import { archiveProblem } from './problems.ts';

/** A way to an archive: one connection at a time, opened with the first question and closed when it has been idle. */
export type Way = postgres.Sql;
/** A question, or a piece of one. */
export type Question = postgres.PendingQuery<postgres.Row[]>;
/** The same inside a transaction. */
export type Inside = postgres.TransactionSql;

/** What is needed to reach an archive. */
export interface Reach {
  readonly address: Address;
  readonly password?: string | undefined;
  /** PEM file of the authority that signed the server's certificate; without it those that Node knows. */
  readonly authority?: string | undefined;
}

/** A connection that says nothing is given back: five hundred benches share the hundred that a server has. */
const idle_s = 10;
const patience_s = 10;

/** For a way that is held open to hear what others send. */
interface Hearing {
  /** Told of each word sent to a channel that is listened to. */
  readonly onWord: (word: string) => void;
  /** The connection is gone, and what is sent from now on is not heard. */
  readonly onGone: () => void;
}

/** Opens a way to an archive; nothing is sent yet. Fails where the authority's file cannot be read. */
export function openWay(reach: Reach, hearing?: Hearing): Result<Way> {
  const { address, password, authority = process.env['PGSSLROOTCERT'] } = reach;
  const { host, port, user, database } = address;
  const ca = authorityIn(authority);
  if (!ca.ok) return ca;
  // To this machine itself words go in the clear, unless an authority is named.
  const trust = isLoopback(host) && ca.value === undefined ? undefined : { ca: ca.value };
  const way = postgres({
    host,
    port,
    user,
    database,
    ...(password === undefined ? {} : { password }),
    ssl: false,
    // The client knows no option of this name in its types; it takes it in the place of a socket of its own.
    ...lines({ host, port, trust }),
    max: 1,
    idle_timeout: idle_s,
    connect_timeout: patience_s,
    backoff: () => 0,
    // The client asks for them first, and where the line breaks just then it never answers who waits (3.4.9).
    fetch_types: false,
    // Questions of many rows are all different: kept prepared they would only fill the server's memory.
    prepare: false,
    onnotice: () => undefined,
    connection: {
      application_name: 'axlewright',
      search_path: 'axlewright, public',
      // What is asked here takes milliseconds: to compile it, or to share it among workers that others need, takes longer.
      // As texts: the client leaves out what is false or zero.
      jit: 'off',
      max_parallel_workers_per_gather: '0',
    },
    ...(hearing === undefined ? {} : heldOpen(hearing)),
  });
  return ok(way);
}

function authorityIn(file: string | undefined): Result<string | undefined> {
  if (file === undefined || file === '') return ok(undefined);
  try {
    return ok(readFileSync(file, 'utf8'));
  } catch {
    return fail(noAuthority(file));
  }
}

const noAuthority = (file: string): Problem => ({
  kind: 'no-authority',
  field: 'authority',
  sentence: `The file of the authority, ${file}, cannot be read.`,
  remedy: 'Check its path.',
});

/** Texts as a list to look something up in: the client would have to ask for the types of arrays first. */
export const listOf = (way: Way | Inside, texts: readonly string[]) =>
  way`(SELECT jsonb_array_elements_text(${JSON.stringify(texts)}::text::jsonb))`;

/** A line that has brought nothing for so long brings nothing more. */
const longest_ms = 300_000;

/** Opens a way, has it used, and closes it whatever comes of it. What the world does to it is a problem. */
export async function onWay<T>(
  reach: Reach,
  use: (way: Way, progress: () => void) => Promise<Result<T>>,
): Promise<Result<T>> {
  const way = openWay(reach);
  if (!way.ok) return way;
  const silence = Promise.withResolvers<never>();
  const give = (): void => silence.reject(Object.assign(new Error('no answer'), { code: 'ETIMEDOUT' }));
  const timer = setTimeout(give, longest_ms);
  try {
    return await Promise.race([use(way.value, () => void timer.refresh()), silence.promise]);
  } catch (error) {
    return fail(archiveProblem(error, reach.address));
  } finally {
    clearTimeout(timer);
    await way.value.end({ timeout: 1 }).catch(() => undefined);
  }
}

/** Its own way to listen goes on in silence where the line breaks (3.4.9): so the words are taken where the client gets them. */
const heldOpen = ({ onWord, onGone }: Hearing): object => ({
  idle_timeout: undefined,
  max_lifetime: null,
  onnotify: (_channel: string, word: string) => onWord(word),
  onclose: onGone,
});

const lines = (to: LineTo): object => ({ socket: () => new Line(to) });
