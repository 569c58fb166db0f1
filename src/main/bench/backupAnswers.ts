import { isAbsolute } from 'node:path';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, isNone, ok } from '../../shared/basics/result.ts';
import { backupsIn } from '../backup/look.ts';
import { isFolder } from '../backup/place.ts';
import { backupProblem, noPlace } from '../backup/problems.ts';
import { restoreAtNextStart } from '../backup/restore.ts';
import { type Keeper, openKeeper } from '../backup/keeper.ts';
import { openBackupChoices } from '../store/backupChoice.ts';
import type { BenchOptions, OpenBench } from './parts.ts';

type Names = Extract<keyof BenchAnswers, `backups.${string}`>;

/** The keeper of this bench's backups; what it does is told to every screen. */
export const keepBackups = (
  { folder, clock, simulation }: BenchOptions,
  { database, outlet, warnings }: Pick<OpenBench, 'database' | 'outlet' | 'warnings'>,
): Keeper =>
  openKeeper({
    from: folder,
    clock,
    choices: openBackupChoices(database),
    onState: (state) => outlet.tell('backup', state),
    // What was measured on a simulated axle is nothing to lose.
    onWarning: (problem) =>
      problem === undefined || simulation !== undefined ? warnings.clear('backup') : warnings.set('backup', problem),
  });

const mostOffered = 200;

/** Backups: where they go, one now, and one brought back into a bench at which nobody has worked. */
export function backupAnswers(keeper: Keeper, folder: string): Pick<BenchAnswers, Names> {
  return {
    'backups.state': async () => ok(keeper.state()),
    'backups.choose': async ({ folder: chosen }) => keeper.choose(isNone(chosen) ? undefined : chosen),
    'backups.make': async () => keeper.make(),
    'backups.stop': async () => {
      keeper.stop();
      return ok(keeper.state());
    },
    'backups.found': async ({ folder: where }) => {
      if (!isAbsolute(where) || !isFolder(where)) return fail(noPlace(where));
      try {
        const backups = backupsIn(where).slice(0, mostOffered);
        return ok({ backups: backups.map(({ bench, ...one }) => ({ ...one, bench: bench.name })) });
      } catch (error) {
        return fail(backupProblem(error, where));
      }
    },
    'backups.restore': async ({ file }) => {
      const laid = restoreAtNextStart(file, folder);
      if (!laid.ok) return laid;
      const { builds, at, bench, missing } = laid.value;
      return ok({ builds, at, bench: bench.name, missing: missing.length });
    },
  };
}
