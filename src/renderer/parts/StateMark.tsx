import { stateMark } from '../../shared/presentation/drawing/states.ts';
import { Drawing } from '../instruments/Drawing.tsx';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import './stateMark.css';

/** The strokes of some shapes leave their disc; the picture has to be that much larger. */
const room = 1.3;

/** The shape of a state. Its word always stands beside it, so the picture itself is silent. */
export function StateMark({ shape, size = 20 }: { readonly shape: Shape; readonly size?: number }) {
  const across = size * room;
  const style = { width: across, height: across };
  if (shape === 'recorded')
    return <span className="state-mark state-mark--recorded" aria-hidden="true" style={style} />;
  const elements = stateMark(shape, { x: across / 2, y: across / 2 }, size);
  return (
    <span className="state-mark" aria-hidden="true" style={style}>
      <Drawing scene={{ width: across, height: across, elements, title: shape, description: '' }} />
    </span>
  );
}
