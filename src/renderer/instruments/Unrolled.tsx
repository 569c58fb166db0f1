import { useMemo } from 'react';
import { unrolledScene } from '../../shared/presentation/drawing/unrolled.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import type { RingView } from './Ring.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

/** The ring cut open and laid flat, from the view that draws the ring: it says how much, the ring says where. */
export function Unrolled({ view }: { readonly view: RingView }) {
  const [room, size] = useRoom(15);
  const system = useSession((session) => session.units);
  const scene = useMemo(
    () => (size === undefined ? undefined : unrolledScene({ ...view, size, system })),
    [view, size, system],
  );
  return (
    <div className="instrument instrument--unrolled" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
