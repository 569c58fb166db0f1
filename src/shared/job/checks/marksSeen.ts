import { type MarkPlace, markPlaces, type MarkResult } from '../records/markResult.ts';
import { isNone } from '../../basics/result.ts';
import type { SeenAt } from '../../axle/mark/meaning/sentence.ts';

/** The marks of one place; a flank without one is left out. */
const seenAt = ({ drive, coast }: MarkPlace): SeenAt => ({
  ...(isNone(drive) ? {} : { drive }),
  ...(isNone(coast) ? {} : { coast }),
});

/** The marks of a result, place by place, as their meaning is asked for. */
export const seenIn = (result: MarkResult): readonly SeenAt[] => markPlaces(result).map(seenAt);
