import { create } from 'zustand';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { Answer, BenchClient } from '../../shared/contract/contract.ts';
import { type Build, readNotebook } from '../../shared/job/records/build.ts';
import { type Deed, lastStanding, lastStrike } from '../../shared/job/records/notebook.ts';
import { deedWords } from '../../shared/presentation/words/deeds.ts';
import type { StoredPhoto } from '../../shared/job/records/photo.ts';
import type { Problem } from '../../shared/basics/result.ts';
import { ask } from './ask.ts';
import { useSession } from './session.ts';

/** The notebook of the build that lies open, and the build it tells. */
interface Open {
  readonly notebook: Notebook | undefined;
  readonly build: Build | undefined;
}

const closed: Open = { notebook: undefined, build: undefined };

export const useNotebook = create<Open>()(() => closed);

const lay = (notebook: Notebook): void => {
  if (notebook.entries.at(-1)?.deed.kind !== 'struck') forgetUndone();
  useNotebook.setState({ notebook, build: readNotebook(notebook.id, notebook.entries) });
};

/** Opens a build; the one that lay open before is put away at once, so that no step is written into the wrong one. */
export async function openBuild(build: string): Promise<void> {
  if (useNotebook.getState().notebook?.id !== build) useNotebook.setState(closed);
  const notebook = await ask('builds.read', { build });
  if (notebook !== undefined) lay(notebook);
}

/** A second window, the command line or the bench itself wrote into the open build: read it again. */
export const followNotebook = (client: BenchClient): (() => void) =>
  client.hear('notebook-changed', ({ build, summary }) => {
    const { notebook } = useNotebook.getState();
    if (notebook?.id !== build) return;
    if (notebook.entries.at(-1)?.at !== summary.lastEntryAt) void openBuild(build);
  });

/** Lays the notebook the bench gave back on the table and says whether there was one. */
function laid(notebook: Answer<'builds.read'> | undefined): boolean {
  if (notebook !== undefined) lay(notebook);
  return notebook !== undefined;
}

/** Who writes and where: the open build, signed by the technician of this session (or of the build). */
export function signature(): { readonly build: string; readonly by: string } {
  const { build } = useNotebook.getState();
  if (build === undefined) throw new Error('no build lies open');
  const { technician } = useSession.getState();
  return { build: build.id, by: technician.trim() === '' ? build.technician : technician };
}

export const writeDeed = async (deed: Deed, onProblem?: (problem: Problem) => void): Promise<boolean> =>
  laid(await ask('builds.write', { ...signature(), deed }, onProblem));

/** What undo or redo last did, until something else is done. */
export const useUndone = create<{ readonly said: Undone | undefined }>()(() => ({ said: undefined }));
interface Undone {
  readonly words: string;
  /** Struck through, or brought back. */
  readonly struck: boolean;
}

/** Strikes one entry through, wherever it stands, and says so as undo does: redo brings it back. */
export async function putAside(entry: string, reason: string): Promise<void> {
  const entries = useNotebook.getState().notebook?.entries ?? [];
  if (await writeDeed({ kind: 'struck', entry, reason }))
    useUndone.setState({ said: { words: deedWords({ id: entry }, entries), struck: true } });
}

export async function undo(): Promise<boolean> {
  const entries = useNotebook.getState().notebook?.entries ?? [];
  const entry = lastStanding(entries);
  const done = laid(await ask('builds.undo', signature()));
  if (done && entry !== undefined) useUndone.setState({ said: { words: deedWords(entry, entries), struck: true } });
  return done;
}

export async function redo(): Promise<boolean> {
  const entries = useNotebook.getState().notebook?.entries ?? [];
  const strike = lastStrike(entries);
  const done = laid(await ask('builds.redo', signature()));
  const id = strike?.deed.kind === 'struck' ? strike.deed.entry : undefined;
  if (done && id !== undefined) useUndone.setState({ said: { words: deedWords({ id }, entries), struck: false } });
  return done;
}

/** Gone with the next thing that is done. */
export const forgetUndone = (): void => useUndone.setState({ said: undefined });

type Recorded = Omit<Parameters<typeof ask<'measurements.record'>>[1], 'build' | 'by'>;
export const recordMeasurement = async (what: Recorded, onProblem?: (problem: Problem) => void): Promise<boolean> =>
  laid(await ask('measurements.record', { ...signature(), ...what }, onProblem));

type Stepped = Omit<Parameters<typeof ask<'measurements.sleeve-step'>>[1], 'build' | 'by'>;
export const recordSleeveStep = async (what: Stepped): Promise<boolean> =>
  laid(await ask('measurements.sleeve-step', { ...signature(), ...what }));

type Adopted = Omit<Parameters<typeof ask<'measurements.adopt'>>[1], 'build' | 'by'>;
export const adoptMeasurement = async (what: Adopted): Promise<boolean> =>
  laid(await ask('measurements.adopt', { ...signature(), ...what }));

type KeptPhoto = Omit<Parameters<typeof ask<'photos.keep'>>[1], 'build' | 'by'>;
/** Stores a photo with its assembly; gives it back as it is stored, or undefined after the problem was told. */
export async function keepPhoto(
  what: KeptPhoto,
  onProblem?: (problem: Problem) => void,
): Promise<StoredPhoto | undefined> {
  const kept = await ask('photos.keep', { ...signature(), ...what }, onProblem);
  if (kept !== undefined) lay(kept.notebook);
  return kept?.photo;
}

export const canUndo = (open: Open): boolean =>
  open.notebook !== undefined && lastStanding(open.notebook.entries) !== undefined;
export const canRedo = (open: Open): boolean =>
  open.notebook !== undefined && lastStrike(open.notebook.entries) !== undefined;
