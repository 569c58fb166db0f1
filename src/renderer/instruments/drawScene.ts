import type { Scene } from '../../shared/presentation/drawing/scene.ts';
import { inkVariable, type SvgNode, svgNodes } from '../../shared/presentation/drawing/svg.ts';

const svgSpace = 'http://www.w3.org/2000/svg';

/**
 * Puts a scene into an SVG element without React, coloured by the theme's custom properties. What is already there is
 * kept and only what differs is written: a trace is drawn twenty times a second, and all but its line is as it was.
 * A scene without a title stands beside its own words, as a state's mark does, and is not read out a second time.
 * @param id names the title and the description; unlike any other in the page.
 */
export function drawScene(svg: SVGSVGElement, scene: Scene, id: string): void {
  const named = scene.title !== '';
  write(svg, 'viewBox', `0 0 ${scene.width} ${scene.height}`);
  write(svg, 'aria-hidden', named ? undefined : 'true');
  write(svg, 'role', named ? 'img' : undefined);
  write(svg, 'aria-labelledby', named ? `${id}-title` : undefined);
  write(svg, 'aria-describedby', named ? `${id}-description` : undefined);
  fill(svg, [...(named ? wordsOf(scene, id) : []), ...svgNodes(scene, inkVariable)]);
}

type Node = Omit<SvgNode, 'tag'> & { readonly tag: SvgNode['tag'] | 'title' | 'desc' };

const wordsOf = (scene: Scene, id: string): readonly Node[] => [
  { tag: 'title', attributes: { id: `${id}-title` }, words: scene.title, children: [] },
  { tag: 'desc', attributes: { id: `${id}-description` }, words: scene.description, children: [] },
];

/** Elements have no identity of their own: a scene is made anew from the data, so its order says which is which. */
function fill(parent: Element, nodes: readonly Node[]): void {
  for (const [index, node] of nodes.entries()) {
    const there = parent.children[index];
    const element = there?.tagName === node.tag ? there : placed(parent, node.tag, there);
    dress(element, node);
  }
  while (parent.children.length > nodes.length) parent.lastElementChild?.remove();
}

function placed(parent: Element, tag: string, instead: Element | undefined): Element {
  const fresh = document.createElementNS(svgSpace, tag);
  if (instead === undefined) parent.append(fresh);
  else instead.replaceWith(fresh);
  return fresh;
}

function dress(element: Element, { attributes, words, children }: Node): void {
  for (const name of element.getAttributeNames()) if (!(name in attributes)) write(element, name, undefined);
  for (const [name, value] of Object.entries(attributes)) write(element, name, value);
  if (words === undefined) fill(element, children);
  else if (element.textContent !== words) element.textContent = words;
}

function write(element: Element, name: string, value: string | undefined): void {
  if (value === undefined) element.removeAttribute(name);
  else if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}
