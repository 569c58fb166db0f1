import { type ReactNode, useEffect, useRef } from 'react';
import { Button } from 'react-aria-components';
import { type Liveness, LiveMark } from '../parts/LiveMark.tsx';
import { StateMark } from '../parts/StateMark.tsx';
import type { Shape } from '../../shared/presentation/words/standing.ts';

interface JobRowProps {
  readonly title: string;
  /** The number, or what is missing. */
  readonly below: string;
  /** A second line: who and when. */
  readonly also?: string;
  /** A mark that is no state's shape, such as how far a build has come. */
  readonly mark?: ReactNode;
  /** What the shape says, in words for whoever does not see it. */
  readonly standing?: string | undefined;
  readonly shape?: Shape;
  /** Of a gauge: how its link stands. */
  readonly liveness?: Liveness;
  readonly here?: boolean;
  readonly next?: boolean;
  /** The number was read off a tool and typed in. */
  readonly typed?: boolean;
  readonly onPress: () => void;
}

/** One line of the job: its sign, its name, and below it its number or what is missing. */
export function JobRow({
  title,
  below,
  also,
  mark,
  standing,
  shape,
  liveness,
  here = false,
  next = false,
  typed = false,
  onPress,
}: JobRowProps) {
  const row = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (here || next) row.current?.scrollIntoView({ block: 'nearest' });
  }, [here, next]);
  return (
    <Button
      ref={row}
      className={`job-row${here ? ' job-row--here' : ''}${next ? ' job-row--next' : ''}`}
      onPress={onPress}
      {...(here ? { 'aria-current': 'step' } : {})}
    >
      {liveness === undefined ? undefined : <LiveMark liveness={liveness} />}
      {shape === undefined ? undefined : <StateMark shape={shape} size={18} />}
      {mark}
      <span className="job-row__words">
        <span className="job-row__title">
          {title}
          {typed ? <span className="job-row__typed"> typed</span> : undefined}
        </span>
        <span className="job-row__below digits">
          {standing === undefined ? undefined : <span className="unseen">{standing}, </span>}
          {below}
        </span>
        {also === undefined ? undefined : <span className="job-row__below quiet">{also}</span>}
      </span>
      {next ? <span className="unseen">, next</span> : undefined}
    </Button>
  );
}
