import { type RefObject, useEffect, useRef, useState } from 'react';

/**
 * Whether what is in an element needs scrolling; then, and only then, the keyboard has to be able to stop there.
 * @param watch not where digits run: each of them would have the element measured.
 */
export function useScrolls(watch = true): readonly [RefObject<HTMLDivElement | null>, boolean] {
  const element = useRef<HTMLDivElement>(null);
  const [scrolls, setScrolls] = useState(false);
  useEffect(() => {
    const room = element.current;
    if (room === null || !watch) return undefined;
    const look = (): void => setScrolls(room.scrollHeight > room.clientHeight + 1);
    const sizes = new ResizeObserver(look);
    const words = new MutationObserver(look);
    sizes.observe(room);
    words.observe(room, { childList: true, characterData: true, subtree: true });
    return () => {
      sizes.disconnect();
      words.disconnect();
    };
  }, [watch]);
  return [element, scrolls];
}
