import { isIP } from 'node:net';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';

/** Where an archive is and who asks there; the password is kept apart. */
export interface Address {
  readonly user: string;
  /** A name or an IP address, without brackets. */
  readonly host: string;
  readonly port: number;
  readonly database: string;
}

const usualPort = 5432;

/** Reads `postgres://user@host:port/database`. A password in it is refused: a command line is seen by every user of the machine. */
export function readAddress(text: string, field: string): Result<Address> {
  const url = URL.parse(text.trim());
  if (url === null || !/^postgres(?:ql)?:$/u.test(url.protocol))
    return fail(notAnAddress(field, 'it does not begin so'));
  if (url.password !== '') return fail(passwordInIt(field));
  if (url.username === '') return fail(notAnAddress(field, 'it names no role of the database before the @'));
  const host = decodeURIComponent(url.hostname).replaceAll(/^\[|\]$/gu, '');
  if (host === '') return fail(notAnAddress(field, 'it names no computer'));
  const database = decodeURIComponent(url.pathname.slice(1));
  if (database === '' || database.includes('/')) return fail(notAnAddress(field, 'it names no database at its end'));
  if (url.search !== '' || url.hash !== '') return fail(notAnAddress(field, 'nothing goes behind the database'));
  const port = url.port === '' ? usualPort : Number(url.port);
  return ok({ user: decodeURIComponent(url.username), host, port, database });
}

/** The address as it is written, always with its port. */
export function addressWords({ user, host, port, database }: Address): string {
  const named = isIP(host) === 6 ? `[${host}]` : host;
  return `postgres://${encodeURIComponent(user)}@${named}:${port}/${encodeURIComponent(database)}`;
}

/** Whether what is said to this computer never leaves it: only there words go without TLS. */
export const isLoopback = (host: string): boolean =>
  host === 'localhost' || host === '::1' || (isIP(host) === 4 && host.startsWith('127.'));

const notAnAddress = (field: string, why: string): Problem => ({
  kind: 'wrong-address',
  field,
  sentence: `This is not the address of an archive: ${why}.`,
  remedy: 'Write it as postgres://role@computer:5432/database.',
});

const passwordInIt = (field: string): Problem => ({
  kind: 'password-in-address',
  field,
  sentence: 'The address holds a password, where other users of this machine can see it.',
  remedy: 'Leave it out; give it in PGPASSWORD, in a password file of mode 0600, or in Settings.',
});
