import type { ReactNode } from 'react';
import { Stage } from '../../../parts/Stage.tsx';
import type { CheckProps } from './checkProps.ts';
import { type Looked, useUnfinished } from './useUnfinished.ts';

interface TakenUpProps {
  readonly of: CheckProps;
  /** The screen that measures, with what was begun; made anew with each look. */
  readonly children: (looked: Looked) => ReactNode;
}

/** Goes on where it was broken off, by another screen or by a bench that ended. */
export function TakenUp({ of, children }: TakenUpProps) {
  const looked = useUnfinished(of);
  return looked === undefined ? (
    <Stage title={of.check.title}>
      <p className="quiet">What was taken before is being looked up.</p>
    </Stage>
  ) : (
    children(looked)
  );
}
