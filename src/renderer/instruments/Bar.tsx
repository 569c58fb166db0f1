import { barScene, type BarInput } from '../../shared/presentation/drawing/bars.ts';
import type { SceneSize } from '../../shared/presentation/drawing/scene.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

export type BarView = Omit<BarInput, 'size' | 'system'>;

/** Higher than this a bar says no more, and narrower its numbers would meet, in letters. */
const [most, fewest] = [10, 22];

/** Where nothing else is to be read, number and mark grow with the room: they are looked at from the gear. */
function grown({ width, height, text }: SceneSize): SceneSize {
  const most_px = Math.min(height / most, width / fewest, text * 1.8);
  const letter = Math.max(text, most_px);
  return { width, height: Math.min(height, most * letter), text: letter };
}

/** One number against its limits, as wide as its room; an empty room where there is nothing to hold it against. */
export function Bar({ view }: { readonly view: BarView | undefined }) {
  const [room, size] = useRoom(15);
  const system = useSession((session) => session.units);
  const scene = size === undefined || view === undefined ? undefined : barScene({ ...view, system, size: grown(size) });
  return (
    <div className="instrument instrument--bar" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
