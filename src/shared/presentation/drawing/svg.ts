import type { Ink, Palette } from './inks.ts';
import { coordinate } from './paths.ts';
import type { CircleElement, Element, GroupElement, PathElement, Scene, Style, TextElement } from './scene.ts';
import { noCase } from '../../basics/noCase.ts';

/** An SVG element as data: written out here for files, made into React elements by the renderer. */
export interface SvgNode {
  readonly tag: 'g' | 'path' | 'circle' | 'text';
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly SvgNode[];
  readonly words?: string;
}

type ColourOf = (ink: Ink) => string;

/** The custom property that holds an ink's colour in the renderer's theme. */
export const inkVariable: ColourOf = (ink) => `var(--ink-${ink})`;

const fontFamily = 'Inter';

/** The scene's elements as SVG; `colourOf` decides between fixed colours and CSS custom properties. */
export const svgNodes = (scene: Scene, colourOf: ColourOf): readonly SvgNode[] =>
  scene.elements.map((element) => nodeOf(element, colourOf));

/** A whole SVG document with the scene's title and description in it. The ground is drawn only when asked for. */
export function sceneToSvg(scene: Scene, palette: Palette, options: { readonly ground?: boolean } = {}): string {
  const ground = options.ground === true ? `<rect width="100%" height="100%" fill="${palette.ground}"/>` : '';
  const size = `width="${scene.width}" height="${scene.height}" viewBox="0 0 ${scene.width} ${scene.height}"`;
  const words = `<title>${escaped(scene.title)}</title><desc>${escaped(scene.description)}</desc>`;
  const body = svgNodes(scene, (ink) => palette[ink])
    .map(written)
    .join('\n');
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" ${size} font-family="${fontFamily}">${words}${ground}\n${body}\n</svg>\n`;
}

function nodeOf(element: Element, colourOf: ColourOf): SvgNode {
  switch (element.kind) {
    case 'path':
      return pathNode(element, colourOf);
    case 'circle':
      return circleNode(element, colourOf);
    case 'text':
      return textNode(element, colourOf);
    case 'group':
      return groupNode(element, colourOf);
    default:
      throw noCase(element);
  }
}

const pathNode = (element: PathElement, colourOf: ColourOf): SvgNode => ({
  tag: 'path',
  attributes: { d: element.d, ...styleOf(element, colourOf) },
  children: [],
});

const circleNode = (element: CircleElement, colourOf: ColourOf): SvgNode => ({
  tag: 'circle',
  attributes: {
    cx: coordinate(element.x),
    cy: coordinate(element.y),
    r: coordinate(element.r),
    ...styleOf(element, colourOf),
  },
  children: [],
});

const textNode = (element: TextElement, colourOf: ColourOf): SvgNode => ({
  tag: 'text',
  attributes: {
    x: coordinate(element.x),
    y: coordinate(element.y),
    'font-size': coordinate(element.size),
    'font-weight': String(element.weight),
    'text-anchor': element.anchor,
    fill: colourOf(element.ink),
    ...(element.tabular ? { 'font-variant': 'tabular-nums' } : {}),
  },
  children: [],
  words: element.text,
});

const groupNode = (element: GroupElement, colourOf: ColourOf): SvgNode => ({
  tag: 'g',
  attributes: {
    ...transformOf(element),
    ...(element.opacity === undefined ? {} : { opacity: coordinate(element.opacity) }),
  },
  children: element.elements.map((child) => nodeOf(child, colourOf)),
});

function transformOf(element: GroupElement): Readonly<Record<string, string>> {
  const { translate, rotate_deg } = element;
  const moved = translate === undefined ? '' : `translate(${coordinate(translate.x)} ${coordinate(translate.y)})`;
  const turned = rotate_deg === undefined ? '' : `rotate(${coordinate(rotate_deg)})`;
  return moved === '' && turned === '' ? {} : { transform: moved + turned };
}

function styleOf(style: Style, colourOf: ColourOf): Readonly<Record<string, string>> {
  return {
    fill: style.fill === undefined ? 'none' : colourOf(style.fill),
    ...strokeOf(style, colourOf),
    ...(style.opacity === undefined ? {} : { opacity: coordinate(style.opacity) }),
  };
}

function strokeOf(style: Style, colourOf: ColourOf): Readonly<Record<string, string>> {
  if (style.stroke === undefined) return {};
  return {
    stroke: colourOf(style.stroke),
    'stroke-width': coordinate(style.width ?? 1),
    'stroke-linejoin': 'round',
    ...(style.cap === 'round' ? { 'stroke-linecap': 'round' } : {}),
    ...(style.dash === undefined ? {} : { 'stroke-dasharray': style.dash.map(coordinate).join(' ') }),
  };
}

function written(node: SvgNode): string {
  const attributes = Object.entries(node.attributes).map(([name, value]) => ` ${name}="${escaped(value)}"`);
  const inside = node.words === undefined ? node.children.map(written).join('') : escaped(node.words);
  return `<${node.tag}${attributes.join('')}>${inside}</${node.tag}>`;
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
