import { memo, type PointerEvent, type ReactElement, useId, useLayoutEffect, useRef } from 'react';
import type { Point, Scene } from '../../shared/drawing/scene.ts';
import { drawScene } from './drawScene.ts';

export interface DrawingProps {
  readonly scene: Scene;
  readonly className?: string;
  /**
   * Where a pointer presses, drags and lets go, in scene units. A drawing is a picture to a screen reader, so
   * whatever is dragged here needs a keyboard control beside it.
   */
  readonly onPoint?: (point: Point, phase: 'down' | 'move' | 'up') => void;
}

/** A scene on screen: fills the width it is given. */
export const Drawing = memo(function Drawing({ scene, className, onPoint }: DrawingProps): ReactElement {
  const id = useId();
  const svg = useRef<SVGSVGElement>(null);
  useLayoutEffect(() => {
    if (svg.current !== null) drawScene(svg.current, scene, id);
  }, [scene, id]);
  return <svg ref={svg} className={className} {...(onPoint === undefined ? {} : pointing(onPoint))} />;
});

type Pointing = Record<'onPointerDown' | 'onPointerMove' | 'onPointerUp', (event: PointerEvent<SVGSVGElement>) => void>;

/** A drag goes on outside the drawing until the pointer is let go. */
function pointing(onPoint: NonNullable<DrawingProps['onPoint']>): Pointing {
  return {
    onPointerDown: (event) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      onPoint(scenePoint(event), 'down');
    },
    onPointerMove: (event) => {
      if (event.currentTarget.hasPointerCapture(event.pointerId)) onPoint(scenePoint(event), 'move');
    },
    onPointerUp: (event) => onPoint(scenePoint(event), 'up'),
  };
}

function scenePoint(event: PointerEvent<SVGSVGElement>): Point {
  const toScreen = event.currentTarget.getScreenCTM();
  const at = new DOMPoint(event.clientX, event.clientY);
  const { x, y } = toScreen === null ? at : at.matrixTransform(toScreen.inverse());
  return { x, y };
}
