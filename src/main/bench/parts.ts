import type { Mark } from '../../shared/axle/mark/mark.ts';
import type { HandAction, SimulatedAssembly, SimulatedAxle, SimulatedPacks } from '../../shared/contract/bench.ts';
import type { CheckId } from '../../shared/job/records/checkIds.ts';
import type { How, MeasuredResult } from '../../shared/job/records/measurement.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Keychain } from '../archive/keychain.ts';
import type { ArchiveKeeper } from '../archive/keeper.ts';
import type { Keeper } from '../backup/keeper.ts';
import type { Clock } from '../clock.ts';
import type { GaugesOptions } from '../gauges/gauges.ts';
import type { Log } from '../log/log.ts';
import type { WatchedFolder } from '../photos/photoFolder.ts';
import type { Database } from '../store/database.ts';
import type { Identity } from '../store/identity.ts';
import type { PaperJobs } from './drawing.ts';
import type { GaugeDesk } from './gaugeAnswers.ts';
import type { HandCues } from './handCues.ts';
import type { Stores } from './stores.ts';
import type { Warnings } from './warnings.ts';

/** A simulator plugged into the bench: links to its gauges, and a hand that can be told to move. */
export interface Simulation {
  readonly links: readonly string[];
  /** The axle on the simulated stand, as a technician would describe it, with limits for it. */
  readonly describes: SimulatedAxle;
  move(action: HandAction, cues: HandCues): Promise<void>;
  /** Paints the teeth, rolls them both ways, and gives what a person would draw. */
  paint(on: SimulatedAssembly): { readonly drive: Mark; readonly coast: Mark };
  /** What is read off a tool or seen at the stand; undefined for what a gauge sends. */
  readOff(asked: ReadOffAsked): { readonly how: How; readonly result: MeasuredResult } | undefined;
  /** A photo of a flank, painted and rolled, as JPEG. */
  photo(on: SimulatedAssembly, side: 'drive' | 'coast'): Uint8Array;
  close(): Promise<void>;
}

interface ReadOffAsked {
  readonly on: SimulatedAssembly;
  readonly check: CheckId;
  /** The packs of the trial before, mm. */
  readonly before?: SimulatedPacks | undefined;
}

export interface BenchOptions {
  readonly folder: string;
  readonly clock: Clock;
  readonly version: string;
  /** The folder of the program, where its documents and licences lie; absent where it has none to tell of. */
  readonly installed?: string;
  readonly simulation?: Simulation;
  /** How the screens end the bench, on hosts where nothing else does. */
  readonly onEnd?: () => void;
  /** Opens a simulated bench beside this one and gives its link; absent where the host cannot. */
  readonly simulateBeside?: () => Promise<Result<string>>;
  /** The system's keychain, where the host has one to ask; else a password lies in a file. */
  readonly keychain?: Keychain;
  /** For tests of what no pseudo-terminal can do: a list of ports, and opening what stands in it. */
  readonly ports?: Pick<GaugesOptions, 'listPorts' | 'open'>;
  /** For tests; otherwise random. */
  readonly newId?: () => string;
}

/** Everything an answer may need. */
export interface OpenBench extends GaugeDesk, Stores {
  readonly options: BenchOptions;
  readonly database: Database;
  readonly identity: Identity;
  readonly log: Log;
  readonly warnings: Warnings;
  readonly photoFolder: WatchedFolder;
  readonly backups: Keeper;
  readonly archive: ArchiveKeeper;
  readonly papers: PaperJobs;
}
