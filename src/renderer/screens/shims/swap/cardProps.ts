import type { Build, Swap } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';

/** What a swap card shows. */
export interface CardProps {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly swap: Swap;
}
