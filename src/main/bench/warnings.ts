import type { Problem } from '../../shared/basics/result.ts';
import type { Log } from '../log/log.ts';
import { traceOf } from '../log/traceOf.ts';
import type { Outlet } from './outlet.ts';

/** What a person must know of the bench itself: what stands wrong now, and what went wrong once. */
export interface Warnings {
  /** What stands wrong, the newest last. */
  list(): Problem[];
  readonly set: (about: string, problem: Problem) => void;
  clear(about: string): void;
  /** A defect of the program: it is logged with its places, told once, and survived. */
  readonly defect: (where: string, error: unknown) => void;
}

export function createWarnings(outlet: Outlet, log: Log): Warnings {
  const standing = new Map<string, Problem>();
  const tell = (): void => outlet.tell('bench-warnings', [...standing.values()]);
  return {
    list: () => [...standing.values()],
    set(about, problem) {
      const before = standing.get(about);
      if (before?.kind === problem.kind && before.sentence === problem.sentence) return;
      standing.set(about, problem);
      log.note({ kind: 'warning', about: about.split(' ')[0] ?? '', is: problem.kind });
      tell();
    },
    clear(about) {
      if (!standing.delete(about)) return;
      log.note({ kind: 'warning-over', about: about.split(' ')[0] ?? '' });
      tell();
    },
    defect(where, error) {
      log.note({ kind: 'defect', where, ...traceOf(error) });
      outlet.tell('bench-fault', faultAt(where));
    },
  };
}

const faultAt = (where: string): Problem => ({
  kind: 'defect',
  sentence: `The bench met a fault of its own at ${where}, and goes on.`,
  remedy: 'What was recorded is on disk. Save a report in Settings: it says what happened, without any names.',
});
