import type { ReactNode } from 'react';
import { CopyTables } from './CopyTables.tsx';
import { useScrolls } from './scrolls.ts';
import './stage.css';

/** The stage: the one thing in use, with its name above it. `fill` gives the picture all the room there is. */
export function Stage({
  title,
  aside,
  children,
  fill = false,
}: {
  readonly title: string;
  readonly aside?: ReactNode;
  readonly children: ReactNode;
  readonly fill?: boolean;
}) {
  const [room, scrolls] = useScrolls(!fill);
  return (
    <main className={`stage${fill ? ' stage--fill' : ''}`} tabIndex={-1}>
      <header className="stage__head">
        <h1 className="stage__title">{title}</h1>
        {aside}
        <CopyTables room={room} />
      </header>
      <div className="stage__room" ref={room} {...(scrolls && !fill ? { tabIndex: 0 } : {})}>
        {children}
      </div>
    </main>
  );
}
