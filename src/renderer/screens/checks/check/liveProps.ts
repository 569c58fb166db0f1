import type { CheckProps } from './checkProps.ts';
import type { FoundBegun } from './useUnfinished.ts';

/** What a screen is given that listens to a gauge. */
export interface LiveProps extends CheckProps {
  /** What was begun and not recorded. */
  readonly found: FoundBegun | undefined;
  /** Opens the other way, which needs no gauge. */
  readonly onByHand: () => void;
}
