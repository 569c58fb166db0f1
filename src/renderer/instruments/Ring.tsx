import { useMemo } from 'react';
import { ringScene } from '../../shared/presentation/drawing/ring.ts';
import type { RingInput } from '../../shared/presentation/drawing/ringInput.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

export type RingView = Omit<RingInput, 'size' | 'system'>;

/** The ring gear as large as its room allows. */
export function Ring({ view, text = 15 }: { readonly view: RingView; readonly text?: number }) {
  const [room, size] = useRoom(text);
  const system = useSession((session) => session.units);
  const scene = useMemo(
    () => (size === undefined ? undefined : ringScene({ ...view, size, system })),
    [view, size, system],
  );
  return (
    <div className="instrument instrument--ring" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
