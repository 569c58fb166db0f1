import { useEffect, useLayoutEffect, useRef } from 'react';
import { enter } from './registry.ts';

/** Enters a command while the component is shown. `run` may change with every drawing; without one nothing is entered. */
export function useCommand(key: string, title: string, run: (() => void) | undefined): void {
  const latest = useRef(run);
  useLayoutEffect(() => {
    latest.current = run;
  });
  const there = run !== undefined;
  useEffect(() => (there ? enter({ key, title, run: () => latest.current?.() }) : undefined), [key, title, there]);
}
