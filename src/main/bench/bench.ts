import { randomUUID } from 'node:crypto';
import type { BenchAnswers, BenchService } from '../../shared/contract/contract.ts';
import { ok, type Result } from '../../shared/basics/result.ts';
import { createGauges } from '../gauges/gauges.ts';
import { keyboardDoor } from '../gauges/links/keyboard.ts';
import { openJournal } from '../journal/journal.ts';
import { settleJournal } from '../journal/settle.ts';
import { type Log, openLog } from '../log/log.ts';
import { openPhotoFolder } from '../photos/photoFolder.ts';
import { catchUp, noteBehind } from '../store/catchUp.ts';
import { type Database, openDatabase } from '../store/database.ts';
import { checkPagesLater, isCheckedFirst } from '../store/pagesChecked.ts';
import { takeUpRestore } from '../backup/restore.ts';
import { archiveAnswers, keepArchive } from './archiveAnswers.ts';
import { aboutAnswers } from './aboutAnswers.ts';
import { backupAnswers, keepBackups } from './backupAnswers.ts';
import { buildAnswers } from './buildAnswers.ts';
import { certificateAnswers } from './certificateAnswers.ts';
import { paperJobs } from './drawing.ts';
import { drawerAnswers } from './drawerAnswers.ts';
import { experienceAnswers } from './experienceAnswers.ts';
import { exportAnswers } from './exportAnswers.ts';
import { gaugeAnswers, noteMoved, plugInSaved } from './gaugeAnswers.ts';
import { gaugeCheckAnswers } from './gaugeCheckAnswers.ts';
import { readingsNews, statesNews } from './gaugeNews.ts';
import { learnAnswers } from './learnAnswers.ts';
import { measurementAnswers } from './measurementAnswers.ts';
import { createOutlet, type Outlet } from './outlet.ts';
import { photoAnswers } from './photoAnswers.ts';
import { selfAnswers } from './selfAnswers.ts';
import { settingAnswers } from './settingAnswers.ts';
import { unfinishedAnswers } from './unfinishedAnswers.ts';
import type { BenchOptions, OpenBench } from './parts.ts';
import { type Identity, openIdentity } from '../store/identity.ts';
import { openStores } from './stores.ts';
import { createWarnings, type Warnings } from './warnings.ts';

/**
 * The bench: gauges, journal, records and certificate behind one contract. Plain Node; whoever hosts it passes
 * texts to and fro. Opening fails as a value when the data folder cannot be used, and nothing is overwritten then.
 */
export function openBench(options: BenchOptions): Result<BenchService> {
  const restored = takeUpRestore(options.folder);
  if (!restored.ok) return restored;
  const database = openDatabase(options.folder, options.clock);
  if (!database.ok) return database;
  const identity = openIdentity(database.value, options.newId ?? randomUUID);
  if (!identity.ok) {
    database.value.close();
    return identity;
  }
  const log = openLog(options.folder, options.clock);
  log.note({ kind: 'opened', version: options.version, node: process.version, on: process.platform });
  const outlet = createOutlet(log);
  const warnings = createWarnings(outlet, log);
  const stopWatching = watchRecords(database.value, warnings);
  const { bench, quiet } = putTogether(options, {
    database: database.value,
    identity: identity.value,
    log,
    outlet,
    warnings,
  });
  // The lines of simulated gauges have new names at every start: whoever simulates plugs them in.
  if (options.simulation === undefined) plugInSaved(bench);
  const end = async (): Promise<Result<void>> => {
    stopWatching();
    await bench.gauges.close();
    bench.photoFolder.close();
    quiet();
    await options.simulation?.close();
    const written = bench.journal.close();
    await Promise.all([bench.backups.close(), bench.archive.close()]);
    log.note({ kind: 'closed', written: written.ok });
    await log.close();
    database.value.close();
    return written;
  };
  let ending: ReturnType<typeof end> | undefined;
  return ok({
    answers: answersOf(bench),
    hear: (topic, listener) => outlet.hear(topic, listener),
    defect: warnings.defect,
    // Whoever asks again hears what the first one heard.
    close: () => (ending ??= end()),
  });
}

interface Ground {
  readonly database: Database;
  readonly identity: Identity;
  readonly log: Log;
  readonly outlet: Outlet;
  readonly warnings: Warnings;
}

/** Journal, stores and gauges on their ground, and what ends the sending of readings. */
function putTogether(options: BenchOptions, ground: Ground): { readonly bench: OpenBench; readonly quiet: () => void } {
  const { database, log, outlet, warnings } = ground;
  const { clock } = options;
  const journal = openJournal(database, {
    onProblem: (problem) => (problem === undefined ? warnings.clear('journal') : warnings.set('journal', problem)),
  });
  noteBehind(database);
  const stores = openStores(database, warnings.set);
  const news = readingsNews(outlet);
  const keyboard = keyboardDoor();
  const states = statesNews(outlet, log);
  const gauges = createGauges({
    keyboard,
    adapters: () => stores.gaugeRecords.list(),
    onMoved: (id, link) => noteMoved(stores.gaugeRecords, clock, { id, link }),
    ...options.ports,
    journal,
    clock,
    onReadings: news.tell,
    onState: states.tell,
  });
  states.follow(gauges);
  const photoFolder = openPhotoFolder({
    store: stores.photos,
    wall_ms: clock.wall_ms,
    onChange: (state) => outlet.tell('photo-folder', state),
  });
  const newId = options.newId ?? randomUUID;
  const simulatedLinks = options.simulation?.links ?? [];
  const own = {
    backups: keepBackups(options, ground),
    archive: keepArchive(options, ground),
    papers: paperJobs(outlet),
  };
  const door = { keyboard, newId, simulatedLinks, photoFolder, ...own };
  const bench = { ...ground, ...stores, ...door, options, journal, gauges, clock };
  const endCatchingUp = catchUp(bench);
  const endSettling = settleJournal({ database, journal, onProblem: (problem) => warnings.set('settling', problem) });
  const quiet = (): void => {
    news.close();
    endCatchingUp();
    endSettling();
  };
  return { bench, quiet };
}

const answersOf = (bench: OpenBench): BenchAnswers => ({
  ...selfAnswers(bench),
  ...aboutAnswers(bench.options),
  ...archiveAnswers(bench),
  ...backupAnswers(bench.backups, bench.options.folder),
  ...buildAnswers(bench),
  ...photoAnswers(bench, bench.photos, bench.photoFolder),
  ...measurementAnswers(bench),
  ...unfinishedAnswers(bench),
  ...gaugeAnswers(bench),
  ...learnAnswers(bench),
  ...gaugeCheckAnswers(bench, bench.gaugeChecks),
  ...certificateAnswers(bench),
  ...exportAnswers(bench),
  ...drawerAnswers(bench),
  ...settingAnswers(bench),
  ...experienceAnswers(bench),
});

/** A database that is not where it was must be seen within a second, also while nothing is written. */
const lookEvery_ms = 500;

/** Tells what is wrong with the records as they were found, and whenever they are not where they were. */
function watchRecords(database: Database, warnings: Warnings): () => void {
  if (database.salvaged !== undefined) warnings.set('salvaged', database.salvaged);
  if (database.witness.lost !== undefined) warnings.set('lost', database.witness.lost);
  const timer = setInterval(() => {
    const gone = database.place.problem();
    if (gone === undefined) warnings.clear('place');
    else warnings.set('place', gone);
  }, lookEvery_ms);
  timer.unref();
  const file = database.path;
  const endChecking = isCheckedFirst(file)
    ? undefined
    : checkPagesLater({ file, onProblem: (problem) => warnings.set('pages', problem) });
  return () => {
    clearInterval(timer);
    endChecking?.();
  };
}
