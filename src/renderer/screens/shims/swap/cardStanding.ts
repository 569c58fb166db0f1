import type { Assembly } from '../../../../shared/job/records/build.ts';

/** How far a swap card has come. */
export interface CardStanding {
  /** The assembly that was put together by it. */
  readonly opened: Assembly | undefined;
  /** What is wrong with the first pack that does not fit. */
  readonly fault: string | undefined;
  /** What stands in the fields stands in the notebook too. */
  readonly kept: boolean;
  /** Every pack has been measured. */
  readonly all: boolean;
}

/** The card's standing as the title beside the stage. */
export function standingTitle({ opened, fault, kept, all }: CardStanding): string {
  if (fault !== undefined) return fault;
  if (opened !== undefined) return 'It has been put together by this card';
  if (kept) return 'The packs are as wanted';
  return all ? 'The packs fit; keep them' : 'Measure each pack before it goes in';
}
