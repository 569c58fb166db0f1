import type { Problem } from '../../shared/basics/result.ts';
import { type Address, addressWords } from './address.ts';

interface Said {
  readonly kind: string;
  readonly sentence: string;
  readonly remedy: string;
}

const again = 'The bench works on and tries again by itself.';

/** What codes of PostgreSQL (documentation, appendix A) and of the network mean to the person. */
const told: Readonly<Record<string, Said>> = {
  '28P01': said('archive-password', 'refuses the password', 'Give the password of this role anew.'),
  '28000': said('archive-role', 'does not let this role in', 'Ask whoever keeps it for a role of this bench.'),
  '3D000': said('archive-missing', 'has no database of this name', 'Check the end of the address.'),
  '42501': said(
    'archive-rights',
    'does not let this role do that',
    'Ask whoever keeps it to make the role a member of axlewright_bench.',
  ),
  '3F000': said('archive-empty', 'has not been set up', 'Run archive migrate there once, as its owner.'),
  '42P01': said('archive-empty', 'has not been set up', 'Run archive migrate there once, as its owner.'),
  '53100': said('archive-full', 'has no room on its disk', `Make room there. ${again}`),
  '53200': said('archive-full', 'has no memory left', again),
  '53300': said('archive-busy', 'has too many benches connected at once', again),
  ENOTFOUND: said('archive-away', 'cannot be found by its name', `Check the name and the network. ${again}`),
  EAI_AGAIN: said('archive-away', 'cannot be found by its name', `Check the name and the network. ${again}`),
  ECONNREFUSED: said('archive-away', 'does not answer at this port', `Check that it runs. ${again}`),
  NOT_ENCRYPTED: said(
    'archive-plain',
    'does not encrypt what is sent to it',
    'Give the server a certificate (ssl = on): nothing is sent in the clear.',
  ),
};

function said(kind: string, what: string, remedy: string): Said {
  return { kind, sentence: what, remedy };
}

const away = said('archive-away', 'cannot be reached', again);

const codeOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** Whether two benches stood in each other's way, and one of them begins its work again (classes 40). */
export const isCollision = (error: unknown): boolean => codeOf(error).startsWith('40');

/** Whether the server cannot hold what it was given, whenever it is given (classes 22 and 54). */
export const isOfTheData = (error: unknown): error is Error =>
  error instanceof Error && /^(?:22|54)...$/u.test(codeOf(error));

/** An error of the client or the server as a problem. @throws what is a defect of the program */
export function archiveProblem(error: unknown, address: Address): Problem {
  const code = codeOf(error);
  const where = `The archive at ${addressWords(address)}`;
  if (/^(?:ERR_TLS|CERT_|DEPTH_|SELF_SIGNED|UNABLE_TO|ERR_SSL|HOSTNAME_)/u.test(code)) return notTrusted(where, error);
  const one = told[code] ?? (isOfTheLine(code) ? away : undefined);
  if (one === undefined) throw error;
  return { kind: one.kind, sentence: `${where} ${one.sentence}.`, remedy: one.remedy };
}

/** The connection broke or the server is starting, ending or out of something: classes 08, 53, 57, 58 and the network's own codes. */
const isOfTheLine = (code: string): boolean =>
  /^(?:08|40|53|57|58)...$/u.test(code) || /^(?:E[A-Z]+|CONNECT\w+|CONNECTION_\w+)$/u.test(code);

const notTrusted = (where: string, error: unknown): Problem => ({
  kind: 'archive-not-trusted',
  sentence: `${where} shows a certificate that is not trusted: ${error instanceof Error ? error.message : String(error)}.`,
  remedy: 'Name the file of the authority that signed it (PGSSLROOTCERT, or in Settings), and check the address.',
});
