import type { ReactNode } from 'react';
import { StateMark } from '../../../parts/StateMark.tsx';
import { type Shape, shapeOf, standingWords } from '../../../../shared/presentation/words/standing.ts';

type Judged = Parameters<typeof shapeOf>[0];

/** A number and the unit after it, which is written in half its size, as the live reading's is. */
function parted(number: ReactNode): { readonly number: ReactNode; readonly unit: string; readonly characters: number } {
  if (typeof number !== 'string') return { number, unit: '', characters: 9 };
  const unit = /(?<=\d) \S+$/u.exec(number)?.[0] ?? '';
  const rest = number.slice(0, number.length - unit.length);
  return { number: rest, unit, characters: rest.length + unit.length / 2 };
}

/** What was recorded in the letters that are read from the gear: the verdict's shape and word first, then the number. */
export function RecordedVerdict({
  judged,
  children,
  beside,
  bare = false,
}: {
  readonly judged: Judged;
  readonly children: ReactNode;
  readonly beside?: ReactNode;
  /** The shape alone: what somebody saw and answered has words of its own. */
  readonly bare?: boolean;
}) {
  const shape: Shape = shapeOf(judged);
  const { number, unit, characters } = parted(children);
  return (
    <p className="verdict">
      <span className={`verdict__word verdict__word--${shape}`}>
        <StateMark shape={shape} size={40} /> {bare ? undefined : standingWords(judged)}
      </span>
      <span className="verdict__number digits" style={{ '--characters': characters }}>
        {number}
        {unit === '' ? undefined : <span className="verdict__unit">{unit}</span>}
      </span>
      {beside === undefined ? undefined : <span className="quiet">{beside}</span>}
    </p>
  );
}
