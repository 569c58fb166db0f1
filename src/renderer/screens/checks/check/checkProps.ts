import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import type { Check } from '../../../../shared/job/checks/checks.ts';

/** What every screen of a check is given. */
export interface CheckProps {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly check: Check;
}
