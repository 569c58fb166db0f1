import type { Build } from '../../../../shared/job/records/build.ts';

/** What every sum beside a trial is given. */
export interface SumProps {
  readonly build: Build;
  readonly assembly: string;
}
