import { ok } from '../../shared/basics/result.ts';
import type { Journal } from '../journal/journal.ts';

/** A journal that keeps nothing, for listening to a gauge without a bench: rows get their numbers and are forgotten. */
export function noJournal(): Journal {
  let last = 0;
  return {
    append: () => (last += 1),
    flush: () => ok(undefined),
    stretch: () => [],
    keep: () => ok(undefined),
    last: () => last,
    durable: () => 0,
    close: () => ok(undefined),
  };
}
