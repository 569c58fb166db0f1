import { type RefObject, useLayoutEffect, useRef, useState } from 'react';
import type { SceneSize } from '../../shared/presentation/drawing/scene.ts';

/**
 * The room an instrument has, in whole pixels, followed as the window changes. Drawings are functions of their
 * size: nothing is stretched, so that letters keep their height.
 */
export function useRoom(text: number): readonly [RefObject<HTMLDivElement | null>, SceneSize | undefined] {
  const room = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<SceneSize>();
  useLayoutEffect(() => {
    const element = room.current;
    if (element === null) return undefined;
    // Letters of a drawing grow with those of the page.
    const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16;
    const measure = (): void => {
      const [width, height] = [Math.floor(element.clientWidth), Math.floor(element.clientHeight)];
      setSize((now) => (now?.width === width && now.height === height ? now : { width, height, text: text * rem }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [text]);
  return [room, size !== undefined && size.width > 60 && size.height > 60 ? size : undefined];
}
