import { useEffect, useRef } from 'react';
import { Button } from 'react-aria-components';
import { StateMark } from '../parts/StateMark.tsx';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import './chip.css';

interface ChipProps {
  readonly words: string;
  /** What the short words stand for, said after them to whoever listens. */
  readonly more?: string;
  readonly shape?: Shape;
  readonly here?: boolean;
  /** Not there yet; pressing it opens it. */
  readonly later?: boolean;
  readonly onPress: () => void;
}

/** A short stop on the way through the job. */
export function Chip({ words, more, shape, here = false, later = false, onPress }: ChipProps) {
  const chip = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (here) chip.current?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }, [here]);
  return (
    <Button
      ref={chip}
      className={`job-chip${here ? ' job-chip--here' : ''}${later ? ' job-chip--later' : ''}`}
      onPress={onPress}
      {...(here ? { 'aria-current': 'true' as const } : {})}
    >
      {shape === undefined ? undefined : <StateMark shape={shape} size={14} />}
      {words}
      {more === undefined ? undefined : <span className="unseen">, {more}</span>}
    </Button>
  );
}
