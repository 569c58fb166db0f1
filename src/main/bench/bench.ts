import { randomUUID } from 'node:crypto';
import type { BenchService } from '../../shared/contract/contract.ts';
import { done } from '../../shared/contract/message.ts';
import type { HandAction } from '../../shared/contract/bench.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import { keyboardDoor } from '../gauges/links/keyboard.ts';
import { createGauges, type Gauges, type GaugesOptions } from '../gauges/gauges.ts';
import { openJournal } from '../journal/journal.ts';
import { thinJournal } from '../journal/thin.ts';
import { type Database, openDatabase } from '../store/database.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { openGaugeChecks } from '../store/gaugeChecks.ts';
import { openGaugeRecords } from '../store/gaugeRecords.ts';
import { openLooseMeasurements } from '../store/looseMeasurements.ts';
import { openShimDrawer } from '../store/shimDrawer.ts';
import { openNotebooks } from '../store/notebooks.ts';
import { openPhotoFolder } from '../photos/photoFolder.ts';
import { openPhotos } from '../store/photos.ts';
import { buildAnswers } from './buildAnswers.ts';
import { certificateAnswers } from './certificateAnswers.ts';
import { type GaugeDesk, gaugeAnswers, noteMoved, plugInSaved } from './gaugeAnswers.ts';
import { drawerAnswers } from './drawerAnswers.ts';
import { readingsNews, statesNews, statesOf } from './gaugeNews.ts';
import { type HandCues, listenForHand } from './handCues.ts';
import { gaugeCheckAnswers } from './gaugeCheckAnswers.ts';
import { learnAnswers } from './learnAnswers.ts';
import { measurementAnswers } from './measurementAnswers.ts';
import { createOutlet } from './outlet.ts';
import { photoAnswers } from './photoAnswers.ts';

/** A simulator plugged into the bench: links to its gauges, and a hand that can be told to move. */
export interface Simulation {
  readonly links: readonly string[];
  move(action: HandAction, cues: HandCues): Promise<void>;
  close(): Promise<void>;
}

export interface BenchOptions {
  readonly folder: string;
  readonly clock: Clock;
  readonly version: string;
  readonly simulation?: Simulation;
  /** For tests of what no pseudo-terminal can do: a list of ports, and opening what stands in it. */
  readonly ports?: Pick<GaugesOptions, 'listPorts' | 'open'>;
  /** For tests; otherwise random. */
  readonly newId?: () => string;
}

/**
 * The bench: gauges, journal, records and certificate behind one contract. Plain Node; whoever hosts it passes
 * texts to and fro. Opening fails as a value when the data folder cannot be used, and nothing is overwritten then.
 */
export function openBench(options: BenchOptions): Result<BenchService> {
  const { folder, clock, version, simulation } = options;
  const database = openDatabase(folder, clock);
  if (!database.ok) return database;
  const outlet = createOutlet();
  const warnings = new Map<string, Problem>();
  const journal = openJournal(database.value, {
    onProblem: (problem) => (problem === undefined ? warnings.delete('journal') : warnings.set('journal', problem)),
  });
  thinOldIdle(database.value, warnings);
  const news = readingsNews(outlet, clock.monotonic_s);
  const gaugeRecords = openGaugeRecords(database.value);
  const keyboard = keyboardDoor();
  const tellStates = statesNews(outlet, () => statesOf(gauges));
  const gauges: Gauges = createGauges({
    keyboard,
    adapters: () => gaugeRecords.list(),
    onMoved: (id, link) => noteMoved(desk, id, link),
    ...options.ports,
    journal,
    clock,
    onReadings: news.tell,
    onState: tellStates,
  });
  const desk: GaugeDesk = {
    notebooks: openNotebooks(database.value),
    gaugeRecords,
    loose: openLooseMeasurements(database.value),
    journal,
    gauges,
    keyboard,
    outlet,
    clock,
    newId: options.newId ?? randomUUID,
    place: database.value.path,
    simulatedLinks: simulation?.links ?? [],
  };
  const photos = openPhotos(database.value);
  const photoFolder = openPhotoFolder({
    store: photos,
    wall_ms: clock.wall_ms,
    onChange: (state) => outlet.tell('photo-folder', state),
  });
  // The lines of simulated gauges have new names at every start: whoever simulates plugs them in.
  if (simulation === undefined) plugInSaved(desk);
  return ok({
    answers: {
      ...buildAnswers(desk),
      ...photoAnswers(desk, photos, photoFolder),
      ...measurementAnswers(desk),
      ...gaugeAnswers(desk),
      ...learnAnswers(desk),
      ...gaugeCheckAnswers(desk, openGaugeChecks(database.value)),
      ...certificateAnswers(desk, folder),
      ...drawerAnswers({ ...desk, drawer: openShimDrawer(database.value) }),
      'bench.about': async () =>
        ok({ version, dataFolder: folder, simulated: simulation !== undefined, warnings: [...warnings.values()] }),
      'bench.hand': async ({ action }) => {
        if (simulation === undefined) return fail(noHand);
        const cues = listenForHand(desk, action);
        await simulation.move(action, cues);
        cues.stop();
        return ok(done);
      },
    },
    hear: (topic, listener) => outlet.hear(topic, listener),
    async close() {
      await gauges.close();
      photoFolder.close();
      news.close();
      await simulation?.close();
      journal.close();
      database.value.close();
    },
  });
}

/** For a week everything stays as it came; after that, what idle gauges repeated between measurements is thinned. */
const keepWhole_ms = 7 * 24 * 3600 * 1000;

function thinOldIdle(database: Database, warnings: Map<string, Problem>): void {
  try {
    thinJournal(database, database.clock.wall_ms() - keepWhole_ms);
  } catch (error) {
    warnings.set('thinning', databaseProblem(error, database.path));
  }
}

const noHand: Problem = {
  kind: 'no-simulation',
  sentence: 'This bench has no simulated hand.',
  remedy: 'Start it with npm start -- --simulate.',
};
