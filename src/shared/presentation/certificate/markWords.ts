import { showText, type UnitSystem } from '../../basics/show.ts';
import type { MarkResult } from '../../job/records/markResult.ts';
import { isNone } from '../../basics/result.ts';

/** How it was made, as far as somebody said: marks are only compared with marks made alike. */
export function madeWords({ drive, coast }: MarkResult, system: UnitSystem): string {
  const made = [drive, coast].flatMap((mark) => (isNone(mark) ? [] : [mark.made ?? {}]))[0] ?? {};
  const said = [
    made.drag_Nm === undefined ? '' : `drag ${showText(made.drag_Nm, 'torque', system)}`,
    made.turns === undefined ? '' : `${made.turns} turns each way`,
    made.bearings === undefined ? '' : `${made.bearings} bearings`,
  ].filter((one) => one !== '');
  return said.length === 0 ? '' : ` Made with ${said.join(', ')}.`;
}

export const placesWords = ({ others = [] }: MarkResult): string =>
  others.length === 0 ? '' : ` Read at ${others.length + 1} places; the drawing shows the first.`;

/** Photos stay with the bench; the data of this certificate names them, so that they cannot be exchanged. */
export const photosWords = ({ photos = [] }: MarkResult): string =>
  photos.length === 0
    ? ''
    : ` Read off ${photos.length === 1 ? 'a photo' : `${photos.length} photos`}, kept by the bench; the data names ${photos.length === 1 ? 'it' : 'them'} by hash.`;
