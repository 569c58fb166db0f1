import type { ReactNode } from 'react';
import type { Problem } from '../../../../shared/basics/result.ts';

interface StandingPartProps {
  readonly heading: string;
  /** How it stands, in a sentence or two. */
  readonly stands: string;
  readonly problem: Problem | undefined;
  readonly children: ReactNode;
}

/** A part of Settings that goes on by itself: how it stands, what is wrong with it, and what can be done. */
export function StandingPart({ heading, stands, problem, children }: StandingPartProps) {
  return (
    <section className="sheet__part">
      <h3>{heading}</h3>
      <p role="status">{stands}</p>
      {problem === undefined ? undefined : (
        <p role="alert">
          {problem.sentence} {problem.remedy}
        </p>
      )}
      {children}
    </section>
  );
}
