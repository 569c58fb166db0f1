import { useEffect, useLayoutEffect, useRef } from 'react';

/** Takes a file that is pasted while the screen is shown. `take` may change with every drawing. */
export function usePasted(take: (file: Blob) => void): void {
  const latest = useRef(take);
  useLayoutEffect(() => {
    latest.current = take;
  });
  useEffect(() => {
    const paste = (event: ClipboardEvent): void => {
      const file = [...(event.clipboardData?.files ?? [])][0];
      if (file !== undefined) latest.current(file);
    };
    addEventListener('paste', paste);
    return () => removeEventListener('paste', paste);
  }, []);
}
