import type { BearingState } from '../../basics/recorded.ts';
import type { MakeUp, ShimPlace } from '../../axle/makeUp.ts';
import type { How, MeasuredResult, ShimPack } from './measurement.ts';
import { type Deed, type DeedOf, type Entry, type Heard, type Laying, type noteTopics, standing } from './notebook.ts';
import type { PhotoWay, StoredPhoto } from './photo.ts';
import type { LimitsChange, SpecSheet } from './specSheet.ts';
import { sleevesAfter, type SleeveStepTaken } from './sleeve.ts';
import type { SwapPlanned } from './swap.ts';
import type { CheckId, Phase } from './checkIds.ts';
import { noCase } from '../../basics/noCase.ts';

export interface Measurement {
  /** The notebook entry it stands in. */
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly check: CheckId;
  readonly how: How;
  readonly result: MeasuredResult;
}

export interface Override {
  readonly check: CheckId;
  readonly reason: string;
  readonly at: string;
  readonly by: string;
}

/** A photo kept with an assembly. */
export interface AssemblyPhoto extends StoredPhoto {
  /** The entry that keeps it; struck through, the photo is put aside. */
  readonly id: string;
  readonly from: PhotoWay;
  readonly at: string;
  readonly by: string;
}

/** One putting-together of the axle: as found, one trial with one set of shims, or the final one. */
export interface Assembly {
  readonly id: string;
  readonly phase: Phase;
  /** Counts the assemblies of its phase from 1: trial 1, trial 2 … */
  readonly number: number;
  readonly at: string;
  readonly bearings: BearingState;
  readonly seal: 'in' | 'out';
  readonly sleeve: boolean;
  /** The swap card it was put together by. */
  readonly swap?: string | undefined;
  /** Notches really turned for it, where they were counted. */
  readonly notchesTurned?: number | undefined;
  /** Everything measured on it, oldest first; the latest of a check counts, the earlier ones stay. */
  readonly measurements: readonly Measurement[];
  readonly overrides: readonly Override[];
  /** What the plan asked to look at was looked at since its last measurement, and is as told. */
  readonly lookedAt: boolean;
  /** The crush sleeves of this assembly with the steps of the nut on each; all but the last were wasted. */
  readonly sleeves: readonly (readonly SleeveStepTaken[])[];
  /** Photos of its painted teeth, oldest first, each once. */
  readonly photos: readonly AssemblyPhoto[];
}

/** A swap card: what was to be changed after an assembly, and the packs as they were measured before the next one. */
export interface Swap extends SwapPlanned {
  /** The notebook entry it stands in. */
  readonly id: string;
  readonly at: string;
  readonly by: string;
  readonly assembly: string;
  readonly measured?: { readonly packs: readonly ShimPack[]; readonly how: How; readonly at: string };
}

export interface Note {
  readonly topic: (typeof noteTopics)[number];
  readonly text: string;
  readonly heard?: Heard | undefined;
  readonly at: string;
  readonly by: string;
}

/** The limits as they were entered once. */
export interface SheetSet {
  readonly at: string;
  readonly by: string;
  readonly specSheet: SpecSheet;
  readonly change?: LimitsChange | undefined;
  /** Ids of the measurements that were taken before. */
  readonly before: ReadonlySet<string>;
}

/** One axle on the stand, as its notebook tells it. */
export interface Build {
  readonly id: string;
  readonly title: string;
  readonly technician: string;
  readonly startedAt: string;
  readonly lies: Laying;
  readonly comebackOf?: string;
  readonly makeUp?: MakeUp;
  /** The limits as they stand now; what a measurement is held against is said by `sheetFor` (checks/limitChanges.ts). */
  readonly specSheet?: SpecSheet;
  /** The limits each time they were entered, oldest first. */
  readonly sheets: readonly SheetSet[];
  readonly notes: readonly Note[];
  readonly assemblies: readonly Assembly[];
  readonly swaps: readonly Swap[];
  readonly certificates: readonly { readonly sha256: string; readonly complete: boolean; readonly at: string }[];
}

/** Reads a notebook from the top. A notebook begins with `started`; one that does not is a defect, not a build. */
export function readNotebook(id: string, entries: readonly Entry[]): Build {
  const [first, ...rest] = standing(entries);
  if (first?.deed.kind !== 'started') throw new Error(`the notebook of build ${id} does not begin with its start`);
  const { title, technician, comebackOf } = first.deed;
  const blank: Build = {
    id,
    title,
    technician,
    startedAt: first.at,
    lies: 'on-the-bench',
    ...(comebackOf === undefined ? {} : { comebackOf }),
    sheets: [],
    notes: [],
    assemblies: [],
    swaps: [],
    certificates: [],
  };
  return rest.reduce(write, blank);
}

/** The same picture taken in twice is one photo, as it was said last. */
const withPhoto = (photos: Assembly['photos'], photo: Assembly['photos'][number]): Assembly['photos'] => [
  ...photos.filter(({ sha256 }) => sha256 !== photo.sha256),
  photo,
];

function write(build: Build, entry: Entry): Build {
  const { deed, at, by } = entry;
  switch (deed.kind) {
    case 'started':
      return { ...build, title: deed.title, technician: deed.technician };
    case 'described':
      return { ...build, makeUp: deed.makeUp };
    case 'limits-set':
      return withSheet(build, deed, { at, by });
    case 'noted':
      return { ...build, notes: [...build.notes, noteOf(deed, { at, by })] };
    case 'assembled':
      return { ...build, assemblies: [...build.assemblies, opened(build, entry, deed)] };
    case 'measured':
      return onAssembly(build, deed, (assembly) => ({
        ...assembly,
        // A new reading is a new question.
        lookedAt: false,
        measurements: [
          ...assembly.measurements,
          { id: entry.id, at, by, check: deed.check, how: deed.how, result: deed.result },
        ],
      }));
    case 'sleeve-step':
      return onAssembly(build, deed, (assembly) => ({
        ...assembly,
        sleeves: sleevesAfter(assembly.sleeves, entry, deed),
      }));
    case 'sleeve-wasted':
      return onAssembly(build, deed, (assembly) => ({ ...assembly, sleeves: [...assembly.sleeves, []] }));
    case 'looked-at':
      return onAssembly(build, deed, (assembly) => ({ ...assembly, lookedAt: true }));
    case 'overridden':
      return onAssembly(build, deed, (assembly) => ({
        ...assembly,
        overrides: [...assembly.overrides, { check: deed.check, reason: deed.reason, at, by }],
      }));
    case 'photographed':
      return onAssembly(build, deed, (assembly) => ({
        ...assembly,
        photos: withPhoto(assembly.photos, { ...deed.photo, id: entry.id, from: deed.from, at, by }),
      }));
    case 'swap-planned':
      return { ...build, swaps: [...build.swaps, { ...deed.swap, id: entry.id, at, by, assembly: deed.assembly }] };
    case 'packs-measured':
      return onSwap(build, deed, at);
    case 'renamed':
      return { ...build, title: deed.title };
    case 'laid':
      return { ...build, lies: deed.where };
    case 'certified':
      return { ...build, certificates: [...build.certificates, { sha256: deed.sha256, complete: deed.complete, at }] };
    case 'struck':
      return build;
    default:
      throw noCase(deed);
  }
}

function withSheet(
  build: Build,
  { specSheet, change }: DeedOf<'limits-set'>,
  signed: Pick<SheetSet, 'at' | 'by'>,
): Build {
  const before = new Set(build.assemblies.flatMap(({ measurements }) => measurements.map(({ id }) => id)));
  return { ...build, specSheet, sheets: [...build.sheets, { ...signed, specSheet, change, before }] };
}

const noteOf = ({ topic, text, heard }: DeedOf<'noted'>, written: Pick<Note, 'at' | 'by'>): Note => ({
  topic,
  text,
  ...(heard === undefined ? {} : { heard }),
  ...written,
});

function opened(build: Build, entry: Entry, deed: DeedOf<'assembled'>): Assembly {
  const number = build.assemblies.filter((assembly) => assembly.phase === deed.assembly.phase).length + 1;
  return {
    ...deed.assembly,
    id: entry.id,
    number,
    at: entry.at,
    measurements: [],
    overrides: [],
    lookedAt: false,
    photos: [],
    sleeves: [],
  };
}

/** A deed on an assembly that has been struck goes with it: it is on paper, but on no assembly that stands. */
const onAssembly = (
  build: Build,
  deed: Extract<Deed, { assembly: string }>,
  change: (assembly: Assembly) => Assembly,
): Build => ({
  ...build,
  assemblies: build.assemblies.map((assembly) => (assembly.id === deed.assembly ? change(assembly) : assembly)),
});

const onSwap = (build: Build, { swap, packs, how }: DeedOf<'packs-measured'>, at: string): Build => ({
  ...build,
  swaps: build.swaps.map((one) => (one.id === swap ? { ...one, measured: { packs, how, at } } : one)),
});

/** The swap card an assembly was put together by. */
export const swapOf = (build: Build, assembly: Assembly): Swap | undefined =>
  build.swaps.find(({ id }) => id === assembly.swap);

/** The last swap card made after the assembly on the stand: the one that waits for the next trial. */
export const waitingSwap = (build: Build): Swap | undefined =>
  build.swaps.findLast(({ assembly }) => assembly === currentAssembly(build)?.id);

/** The measurement that counts for a check: the last one taken. */
export const latest = (assembly: Assembly, check: CheckId): Measurement | undefined =>
  assembly.measurements.findLast((measurement) => measurement.check === check);

export const overrideOf = (assembly: Assembly, check: CheckId): Override | undefined =>
  assembly.overrides.findLast((override) => override.check === check);

export const currentAssembly = (build: Build): Assembly | undefined => build.assemblies.at(-1);

/** The measured pack at one place in this assembly, if it was recorded. */
export function packAt(assembly: Assembly, place: ShimPlace): ShimPack | undefined {
  const result = latest(assembly, 'shims')?.result;
  return result?.kind === 'shims' ? result.packs.find((pack) => pack.place === place) : undefined;
}

/** "As found", "Trial 2", "Final". */
export function assemblyName(assembly: Pick<Assembly, 'phase' | 'number'>): string {
  if (assembly.phase === 'trial') return `Trial ${assembly.number}`;
  const word = { 'as-found': 'As found', stripping: 'As it comes apart', final: 'Final' }[assembly.phase];
  return assembly.number === 1 ? word : `${word} ${assembly.number}`;
}
