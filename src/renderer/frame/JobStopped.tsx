import type { InsteadProps } from './Guard.tsx';
import { Button } from '../parts/Button.tsx';

/** In place of a list of steps that could not be drawn; stage and gauges stay. */
export const JobStopped = ({ again }: Pick<InsteadProps, 'again'>) => (
  <nav className="job" aria-label="The job">
    <p className="job__empty">The list of steps stopped. What was recorded is kept.</p>
    <Button onPress={again}>Try the list again</Button>
  </nav>
);
