import { createElement, memo, type PointerEvent, type ReactElement, useId } from 'react';
import type { Point, Scene } from '../../shared/presentation/drawing/scene.ts';
import { inkVariable, type SvgNode, svgNodes } from '../../shared/presentation/drawing/svg.ts';

interface DrawingProps {
  readonly scene: Scene;
  readonly className?: string;
  /**
   * Where a pointer presses, drags and lets go, in scene units. A drawing is a picture to a screen reader, so
   * whatever is dragged here needs a keyboard control beside it.
   */
  readonly onPoint?: (point: Point, phase: 'down' | 'move' | 'up') => void;
}

/**
 * A scene on screen: fills the width it is given, coloured by the theme's custom properties. A scene without a
 * title stands beside its own words, as a state's mark does, and is not read out a second time.
 */
export const Drawing = memo(function Drawing({ scene, className, onPoint }: DrawingProps): ReactElement {
  const id = useId();
  return (
    <svg
      className={className}
      viewBox={`0 0 ${scene.width} ${scene.height}`}
      {...(scene.title === '' ? { 'aria-hidden': true } : named(id))}
      {...(onPoint === undefined ? {} : pointing(onPoint))}
    >
      {scene.title === '' ? null : <title id={`${id}-title`}>{scene.title}</title>}
      {scene.title === '' ? null : <desc id={`${id}-description`}>{scene.description}</desc>}
      {svgNodes(scene, inkVariable).map(drawn)}
    </svg>
  );
});

const named = (id: string) => ({
  role: 'img',
  'aria-labelledby': `${id}-title`,
  'aria-describedby': `${id}-description`,
});

/** Elements have no identity of their own: a scene is drawn anew from the data, so its order is its key. */
const drawn = ({ tag, attributes, children, words }: SvgNode, index: number): ReactElement =>
  createElement(tag, { key: index, ...reactNames(attributes) }, words ?? children.map(drawn));

/** React wants `strokeWidth` where SVG writes `stroke-width`. */
const reactNames = (attributes: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(attributes).map(([name, value]) => [
      name.replaceAll(/-([a-z])/gu, (_, letter: string) => letter.toUpperCase()),
      value,
    ]),
  );

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
