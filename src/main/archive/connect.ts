import { readFileSync } from 'node:fs';
import { connect as openSocket } from 'node:net';
import { checkServerIdentity, type PeerCertificate } from 'node:tls';
import postgres from 'postgres';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import { type Address, addressWords, isLoopback } from './address.ts';
import { archiveProblem } from './problems.ts';

/** A way to an archive: one connection at a time, opened with the first question and closed when it has been idle. */
export type Way = postgres.Sql;
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

/** Opens a way to an archive; nothing is sent yet. Fails where the authority's file cannot be read. */
export function openWay({ address, password, authority = process.env['PGSSLROOTCERT'] }: Reach): Result<Way> {
  const { host, port, user, database } = address;
  const ca = authorityIn(authority);
  if (!ca.ok) return ca;
  const way = postgres({
    host,
    port,
    user,
    database,
    ...(password === undefined ? {} : { password }),
    ssl: isLoopback(host) && ca.value === undefined ? false : trusted(host, ca.value),
    max: 1,
    idle_timeout: idle_s,
    connect_timeout: patience_s,
    backoff: () => 0,
    // Questions of many rows are all different: kept prepared they would only fill the server's memory.
    prepare: false,
    onnotice: () => undefined,
    connection: { application_name: 'axlewright', search_path: 'axlewright, public' },
  });
  return ok(way);
}

/**
 * The server must show a certificate for the very host that was typed: left to itself the client checks the name "localhost"
 * where an IP address was given, and refuses what is right.
 */
const trusted = (host: string, ca: string | undefined) => ({
  ...(ca === undefined ? {} : { ca }),
  rejectUnauthorized: true,
  checkServerIdentity: (_: string, certificate: PeerCertificate) => checkServerIdentity(host, certificate),
});

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

/** Opens a way, has it used, and closes it whatever comes of it. What the world does to it is a problem. */
export async function onWay<T>(reach: Reach, use: (way: Way) => Promise<Result<T>>): Promise<Result<T>> {
  const way = openWay(reach);
  if (!way.ok) return way;
  try {
    return await use(way.value);
  } catch (error) {
    return fail(await whyNot(error, reach.address));
  } finally {
    await way.value.end({ timeout: 1 }).catch(() => undefined);
  }
}

/** What an error means, having asked a server that hung up whether it encrypts at all. */
export async function whyNot(error: unknown, address: Address): ReturnType<typeof plainOr> {
  return plainOr(archiveProblem(error, address), address);
}

async function plainOr(problem: ReturnType<typeof archiveProblem>, address: Address) {
  const mayBePlain = problem.kind === 'archive-away' || problem.kind === 'archive-not-trusted';
  if (isLoopback(address.host) || !mayBePlain || !(await isPlain(address))) return problem;
  return archiveProblem({ code: 'NOT_ENCRYPTED', message: addressWords(address) }, address);
}

/** SSLRequest (PostgreSQL's frontend protocol, 55.2): a server answers it with S or N. */
const sslRequest = Buffer.from([0, 0, 0, 8, 0x04, 0xd2, 0x16, 0x2f]);

function isPlain({ host, port }: Address): Promise<boolean> {
  const { promise, resolve } = Promise.withResolvers<boolean>();
  const socket = openSocket({ host, port, timeout: 2000 });
  socket.on('connect', () => socket.write(sslRequest));
  socket.on('data', (bytes) => resolve(bytes.toString('latin1').startsWith('N')));
  for (const end of ['error', 'timeout', 'close'] as const) socket.on(end, () => resolve(false));
  return promise.finally(() => socket.destroy());
}
