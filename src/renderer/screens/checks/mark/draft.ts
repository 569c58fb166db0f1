import { type Assembly, type Build, latest } from '../../../../shared/job/records/build.ts';
import { type MarkPlace, markPlaces } from '../../../../shared/job/records/markResult.ts';
import type { MarkResult } from '../../../../shared/job/records/measurement.ts';
import type { PhotoRead } from '../../../../shared/job/records/photo.ts';
import type { Mark } from '../../../../shared/axle/mark/mark.ts';
import { isNone, ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, wrong } from '../../../parts/draft.ts';
import { blankMade, type MadeDraft, madeDraftOf, readMade } from './made.ts';

export type FlankSide = 'drive' | 'coast';
export const sides: readonly FlankSide[] = ['drive', 'coast'];

/** What is drawn on one flank: a mark, nothing found there, or nothing drawn yet. */
export type SideDraft = Mark | 'no-mark' | undefined;

/** Both flanks at one place round the gear. */
export interface PlaceDraft {
  readonly drive: SideDraft;
  readonly coast: SideDraft;
}

export interface MarkDraft {
  /** One to three places round the gear, the one to go by first. */
  readonly places: readonly PlaceDraft[];
  readonly judgement: MarkResult['judgement'] | undefined;
  readonly note: string;
  readonly made: MadeDraft;
  readonly photos: readonly PhotoRead[];
}

/** Places round the gear that can be read: three, as the teeth are painted. */
export const mostPlaces = 3;
export const blankPlace: PlaceDraft = { drive: undefined, coast: undefined };

/** As found there is nothing to decide yet: the mark is recorded, and for a used set it is the target. */
export const blankMark = (assembly: Assembly): MarkDraft => ({
  places: [blankPlace],
  judgement: assembly.phase === 'as-found' ? 'recorded' : undefined,
  note: '',
  made: blankMade,
  photos: [],
});

const sideOf = (side: MarkResult['drive']): SideDraft => (isNone(side) ? 'no-mark' : side);

export const markDraftOf = (result: MarkResult): MarkDraft => ({
  places: markPlaces(result).map(({ drive, coast }) => ({ drive: sideOf(drive), coast: sideOf(coast) })),
  judgement: result.judgement,
  note: result.note ?? '',
  made: madeDraftOf(result),
  photos: result.photos ?? [],
});

/** A draft with one flank of one place changed; a place that was not there yet is there then. */
export function withSide(draft: MarkDraft, place: number, side: FlankSide, to: SideDraft): MarkDraft {
  const places = Array.from({ length: Math.max(draft.places.length, place + 1) }, (_, n) => {
    const now = draft.places[n] ?? blankPlace;
    return n === place ? { ...now, [side]: to } : now;
  });
  return { ...draft, places };
}

/** As {@link withSide}, with a mark that was read off a photo; it takes the place of what was read there before. */
export const withPhotoRead = (draft: MarkDraft, mark: Mark, read: PhotoRead): MarkDraft => ({
  ...withSide(draft, read.place, read.flank, mark),
  photos: [...draft.photos.filter((one) => one.place !== read.place || one.flank !== read.flank), read],
});

/** From which photo a mark was read, if it was and has not been drawn over since. */
export const readFrom = (draft: MarkDraft, place: number, side: FlankSide): PhotoRead | undefined =>
  draft.photos.find((one) => one.place === place && one.flank === side);

/** A mark changed by hand is a hand's mark: what was read off the photo, and how sure that was, no longer describe it. */
export function drawnOver(draft: MarkDraft, place: number, side: FlankSide): MarkDraft {
  const mark = draft.places[place]?.[side];
  const photos = draft.photos.filter((one) => one.place !== place || one.flank !== side);
  if (mark === undefined || mark === 'no-mark') return { ...draft, photos };
  const { U95: _gone, ...byHand } = mark;
  return { ...withSide(draft, place, side, byHand), photos };
}

/** The mark an assembly has in the notebook. */
export function markResultOf(assembly: Assembly | undefined): MarkResult | undefined {
  const result = assembly === undefined ? undefined : latest(assembly, 'mark')?.result;
  return result?.kind === 'mark' ? result : undefined;
}

/** The mark as it was before anything was loosened. */
export const markAsFound = (build: Build): MarkResult | undefined =>
  markResultOf(build.assemblies.findLast((assembly) => assembly.phase === 'as-found'));

/** What is still missing of a mark: one sentence at a time, for the line beside the stage. */
export interface MarkErrors {
  readonly mark: string;
}

/** The result a draft stands for, or what is still missing. */
export function readMark(draft: MarkDraft, bearings: Assembly['bearings']): DraftRead<MarkResult, MarkErrors> {
  const { judgement, note, photos } = draft;
  const made = readMade(draft.made, bearings);
  if (!made.ok) return wrong({ mark: made.problem.sentence });
  const places = readPlaces(draft.places, made.value);
  if (!places.ok) return places;
  const [first, ...others] = places.value;
  if (first === undefined) return wrong({ mark: 'The drive flank is not drawn yet.' });
  if (judgement === undefined) return wrong({ mark: 'Say what the mark asks for.' });
  return ok({
    kind: 'mark',
    ...first,
    judgement,
    ...(others.length === 0 ? {} : { others }),
    ...(note.trim() === '' ? {} : { note: note.trim() }),
    ...(draft.made.compound.trim() === '' ? {} : { compound: draft.made.compound.trim() }),
    ...(photos.length === 0 ? {} : { photos: [...photos] }),
  });
}

/** Both flanks of the first place, and of every further one that was begun. */
function readPlaces(places: readonly PlaceDraft[], made: Mark['made']): DraftRead<readonly MarkPlace[], MarkErrors> {
  const begun = places.filter(({ drive, coast }, n) => n === 0 || drive !== undefined || coast !== undefined);
  const seen = (side: Mark | 'no-mark'): MarkResult['drive'] =>
    side === 'no-mark' ? { none: 'no mark on this flank' } : { ...side, ...(made === undefined ? {} : { made }) };
  const read: MarkPlace[] = [];
  for (const [n, { drive, coast }] of begun.entries()) {
    const where = begun.length === 1 ? '' : ` at place ${n + 1}`;
    if (drive === undefined) return wrong({ mark: `The drive flank${where} is not drawn yet.` });
    if (coast === undefined) return wrong({ mark: `The coast flank${where} is not drawn yet.` });
    read.push({ drive: seen(drive), coast: seen(coast) });
  }
  return ok(read);
}
