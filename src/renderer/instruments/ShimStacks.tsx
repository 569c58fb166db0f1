import { useMemo } from 'react';
import { type StacksInput, stacksScene } from '../../shared/presentation/drawing/shimStacks.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './shimStacks.css';

type StacksView = Omit<StacksInput, 'system' | 'size'>;

/** The packs to one scale, before and now. */
export function ShimStacks({ view }: { readonly view: StacksView }) {
  const [room, size] = useRoom(15);
  const system = useSession((session) => session.units);
  const scene = useMemo(
    () => (size === undefined ? undefined : stacksScene({ ...view, size, system })),
    [view, size, system],
  );
  return (
    <div className="instrument shim-stacks" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
