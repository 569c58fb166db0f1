import { type RefObject, useLayoutEffect, useRef, useState } from 'react';

/**
 * How many of the first things of a row have to fold into one so that all of it is in sight; none where there is room.
 * @param most how many may fold
 * @param key changes with what stands in the row
 */
export function useFolded(most: number, key: string): readonly [RefObject<HTMLDivElement | null>, number] {
  const row = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  const [folded, setFolded] = useState({ at: '', count: 0 });
  const at = `${key} ${width}`;
  // Another row, or another width, begins with everything in sight.
  const count = folded.at === at ? folded.count : 0;
  useLayoutEffect(() => {
    const element = row.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  useLayoutEffect(() => {
    const element = row.current;
    if (element === null || element.scrollWidth <= element.clientWidth || count >= most) return;
    // One alone would not be shorter for being folded.
    setFolded({ at, count: Math.min(most, Math.max(2, count + 1)) });
  }, [at, count, most]);
  return [row, Math.min(count, most)];
}
