import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { Check } from '../../../../shared/job/checks/checks.ts';

/** What every screen of a check is given. */
export interface CheckProps {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly check: Check;
  /** The recorded measurement that was sent here to be taken anew. */
  readonly anew?: string | undefined;
}
