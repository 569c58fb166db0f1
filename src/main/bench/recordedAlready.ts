import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { Stretch } from '../../shared/job/records/measurement.ts';
import { type Deed, type Entry, type Notebook, standing } from '../../shared/job/records/notebook.ts';

type Measured = Extract<Deed, { kind: 'measured' }>;

/**
 * Two windows may listen to one gauge while it is measured once, and both have what it came to: one of them records it. The same
 * readings over again, as after an answer that was lost, are recorded already and give the notebook as it is; a stretch that
 * shares some of them is refused. A reading taken anew begins behind the one before, so that neither is meant.
 * @returns undefined where none of these readings stands for this check of this assembly
 */
export function recordedAlready({ id, entries }: Notebook, deed: Measured): Result<Notebook> | undefined {
  const stretch = stretchOf(deed);
  const before = standing(entries).findLast((entry) => {
    const other = entry.deed.kind === 'measured' && isOfTheSame(entry.deed, deed) ? stretchOf(entry.deed) : undefined;
    return other !== undefined && stretch !== undefined && overlap(other, stretch);
  });
  if (before === undefined) return undefined;
  return isSame(before, stretch) ? ok({ id, entries: [...entries] }) : fail(standsThere(before));
}

const stretchOf = ({ how }: Measured): Stretch | undefined => (how.kind === 'streamed' ? how.stretch : undefined);

const isOfTheSame = (one: Measured, other: Measured): boolean =>
  one.assembly === other.assembly && one.check === other.check;

const overlap = (one: Stretch, other: Stretch): boolean =>
  one.gauge === other.gauge && one.bench === other.bench && one.from <= other.to && other.from <= one.to;

function isSame({ deed }: Entry, stretch: Stretch | undefined): boolean {
  const before = deed.kind === 'measured' ? stretchOf(deed) : undefined;
  return before?.from === stretch?.from && before?.to === stretch?.to;
}

const standsThere = ({ by }: Entry) => ({
  kind: 'recorded-already',
  sentence: `These readings stand in the build already: ${by} recorded them, perhaps at another window.`,
  remedy: 'Nothing is missing. To have another reading, take it anew.',
});
