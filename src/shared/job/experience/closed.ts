import type { Build } from '../records/build.ts';
import { latest } from '../records/build.ts';
import { type Deed, type Entry, type Notebook, standing } from '../records/notebook.ts';

/** What may be written after a build is closed without its changing what was read on it. */
const beside: ReadonlySet<Deed['kind']> = new Set(['noted', 'photographed', 'certified', 'started'] as const);

/**
 * Whether a build is done and may teach: it has its certificate, its last mark was accepted, and nothing that was read
 * has been altered since. One that is altered teaches again when it is certified again.
 */
export function isClosed({ entries }: Notebook, build: Build): boolean {
  const certified = standing(entries).findLast(({ deed }) => deed.kind === 'certified');
  if (certified === undefined || !markAccepted(build)) return false;
  const then = entries.slice(0, entries.indexOf(certified) + 1);
  const [was, is] = [readIn(then), readIn(entries)];
  return was.length === is.length && was.every((id, n) => id === is[n]);
}

const readIn = (entries: readonly Entry[]): readonly string[] =>
  standing(entries)
    .filter(({ deed }) => !beside.has(deed.kind))
    .map(({ id }) => id);

function markAccepted({ assemblies }: Build): boolean {
  const marks = assemblies.flatMap((assembly) =>
    assembly.phase === 'trial' || assembly.phase === 'final' ? (latest(assembly, 'mark')?.result ?? []) : [],
  );
  const last = marks.at(-1);
  return last?.kind === 'mark' && last.judgement === 'accepted';
}
