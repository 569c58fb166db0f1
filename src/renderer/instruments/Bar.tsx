import { barScene, type BarInput } from '../../shared/presentation/drawing/bars.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

export type BarView = Omit<BarInput, 'size' | 'system'>;

/** Higher than this a bar says no more, in letters. */
const most = 10;

/** One number against its limits, as wide as its room; an empty room where there is nothing to hold it against. */
export function Bar({ view }: { readonly view: BarView | undefined }) {
  const [room, size] = useRoom(15);
  const system = useSession((session) => session.units);
  const scene =
    size === undefined || view === undefined
      ? undefined
      : barScene({ ...view, system, size: { ...size, height: Math.min(size.height, most * size.text) } });
  return (
    <div className="instrument instrument--bar" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
