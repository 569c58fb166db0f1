import { useEffect } from 'react';
import { StateMark } from '../parts/StateMark.tsx';
import { useRoute } from '../stores/route.ts';
import { endCue, useCue } from './give.ts';
import './cuePicture.css';

/**
 * The cue as a large change of the picture, seen from the corner of an eye: a bar for a rest, two for a rock, and
 * for what ends a station the whole width with its sign and number.
 */
export function CuePicture() {
  const { cue, words, shape, count } = useCue();
  const route = useRoute(({ route }) => route);
  useEffect(endCue, [route]);
  if (cue === undefined) return undefined;
  const sign = cue === 'refused' ? 'not-measured' : shape;
  return (
    <div key={count} className={`cue cue--${cue}`} role="status">
      {cue === 'rest' || cue === 'rock' || sign === undefined ? undefined : <StateMark shape={sign} size={72} />}
      <span className="cue__words digits">{words}</span>
    </div>
  );
}
