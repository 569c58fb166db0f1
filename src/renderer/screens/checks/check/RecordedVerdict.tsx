import type { ReactNode } from 'react';
import { StateMark } from '../../../parts/StateMark.tsx';
import { type Shape, shapeOf, standingWords } from '../../../../shared/presentation/words/standing.ts';

type Judged = Parameters<typeof shapeOf>[0];

/** How long a number is; one that is more than text is as long as most. */
const charactersOf = (number: ReactNode): number => (typeof number === 'string' ? number.length : 9);

/** What was recorded in the letters that are read from the gear: the verdict's shape and word first, then the number. */
export function RecordedVerdict({
  judged,
  children,
  beside,
}: {
  readonly judged: Judged;
  readonly children: ReactNode;
  readonly beside?: ReactNode;
}) {
  const shape: Shape = shapeOf(judged);
  return (
    <p className="verdict">
      <span className={`verdict__word verdict__word--${shape}`}>
        <StateMark shape={shape} size={40} /> {standingWords(judged)}
      </span>
      <span className="verdict__number digits" style={{ '--characters': charactersOf(children) }}>
        {children}
      </span>
      {beside === undefined ? undefined : <span className="quiet">{beside}</span>}
    </p>
  );
}
