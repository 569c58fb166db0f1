import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright';

/** The rules of WCAG 2.2 at level AA that a machine can check (axe-core's own tags). */
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe finds wrong on the page as it stands, one line a rule. */
export async function axeFaults(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).withTags(rules).analyze();
  return violations.map(({ id, nodes }) => `axe ${id}: ${nodes.map(({ html }) => html.slice(0, 90)).join(', ')}`);
}

/**
 * What a machine can see wrong in the layout of the page as it stands: words that are cut, words that lie over others,
 * drawings that leave their room, an instrument that scrolls, and targets too small for a glove. It sees no beauty.
 * @param least_px the smaller side of a target
 */
export async function layoutFaults(page: Page, least_px: number): Promise<readonly string[]> {
  const tools = await page.evaluateHandle(toolsInPage);
  const faults = [
    ...(await page.evaluate(cutWords, tools)),
    ...(await page.evaluate(shortenedWords, tools)),
    ...(await page.evaluate(wordsOverWords, tools)),
    ...(await page.evaluate(drawnOutside, tools)),
    ...(await page.evaluate(smallTargets, { tools, least_px })),
  ];
  await tools.dispose();
  return [...new Set(faults)];
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

interface Line {
  readonly words: string;
  readonly element: Element;
  /** Where it stands, and what of it the rooms around it let through. */
  readonly box: Box;
  readonly shown: Box;
}

type Tools = ReturnType<typeof toolsInPage>;

/** Runs in the page, as all below it: what the others share, kept there by a handle. */
function toolsInPage() {
  const meet = (a: Box, b: Box): Box => ({
    left: Math.max(a.left, b.left),
    top: Math.max(a.top, b.top),
    right: Math.min(a.right, b.right),
    bottom: Math.min(a.bottom, b.bottom),
  });
  const isBox = (box: Box): boolean => box.right - box.left > 2 && box.bottom - box.top > 2;
  /** What is there for whoever listens, and for no eye. */
  const clipped = (element: Element | null): boolean =>
    element !== null && (getComputedStyle(element).clipPath.startsWith('inset') || clipped(element.parentElement));
  const seen = (element: Element): boolean =>
    element.closest('.unseen, .cue, .live__place, title, desc, style, script') === null &&
    (element.closest('details:not([open])') === null || element.closest('summary') !== null) &&
    !clipped(element) &&
    element.checkVisibility();
  const shown = (element: Element, box: Box): Box => {
    let left = meet(box, { left: 0, top: 0, right: innerWidth, bottom: innerHeight });
    for (let up = element.parentElement; up !== null && up !== document.body; up = up.parentElement)
      if (!(up instanceof SVGElement) && getComputedStyle(up).overflow !== 'visible')
        left = meet(left, up.getBoundingClientRect());
    return left;
  };
  const brief = (words: string | null): string => `“${(words ?? '').trim().replaceAll(/\s+/gu, ' ').slice(0, 44)}”`;
  const linesOf = (node: Node): Line[] => {
    const element = node.parentElement;
    if (element === null || (node.textContent ?? '').trim() === '' || !seen(element)) return [];
    const range = document.createRange();
    range.selectNodeContents(node);
    const words = brief(node.textContent);
    return [...range.getClientRects()].map((box) => ({ words, element, box, shown: shown(element, box) }));
  };
  // Behind an open sheet nothing is read and nothing pressed.
  const page = document.querySelector('[role="dialog"]') ?? document.body;
  const walker = document.createTreeWalker(page, NodeFilter.SHOW_TEXT);
  const lines: Line[] = [];
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) lines.push(...linesOf(node));
  return { meet, page, seen, brief, lines: lines.filter((line) => isBox(line.shown)) };
}

/** Words cut by an edge; a form may scroll downwards, what is read while measuring may not. */
function cutWords({ lines }: Tools): string[] {
  return lines.flatMap(({ words, element, box, shown }) => {
    const across = shown.left - box.left + (box.right - shown.right);
    const down = shown.top - box.top + (box.bottom - shown.bottom);
    const scrolls =
      element.closest('.stage--fill .stage__room') === null &&
      element.closest('.stage__room, .job__steps, .words__saying, .sheet__columns');
    if (across > 2.5) return [`cut at the side: ${words}`];
    return down > 0.3 * (box.bottom - box.top) && scrolls === null ? [`cut in height: ${words}`] : [];
  });
}

/** Words that end in dots, and entries longer than their fields. */
function shortenedWords({ page, seen, brief }: Tools): string[] {
  const shortened = [...page.querySelectorAll<HTMLElement>('*')].filter((element) => {
    const { textOverflow, webkitLineClamp } = getComputedStyle(element);
    const across = textOverflow === 'ellipsis' && element.scrollWidth > element.clientWidth + 1;
    const down = webkitLineClamp !== 'none' && element.scrollHeight > element.clientHeight + 2;
    return (across || down) && seen(element);
  });
  const fields = [...page.querySelectorAll('input')].filter(
    (field) => seen(field) && field.scrollWidth > field.clientWidth + 1,
  );
  return [
    ...shortened.map((element) => `shortened: ${brief(element.textContent)}`),
    ...fields.map((field) => `cut in its field: ${brief(field.value)}`),
  ];
}

/** Boxes of letters are higher than the letters, by a tenth above and below; a tenth more may lie over the next line. */
function wordsOverWords({ lines, meet }: Tools): string[] {
  const letters = ({ left, top, right, bottom }: Box): Box => {
    const spare = (bottom - top) * 0.12;
    return { left, top: top + spare, right, bottom: bottom - spare };
  };
  return lines.flatMap((one, index) =>
    lines.slice(index + 1).flatMap((other) => {
      const over = meet(letters(one.shown), letters(other.shown));
      const least = Math.min(one.shown.bottom - one.shown.top, other.shown.bottom - other.shown.top) * 0.12;
      return one.words !== other.words && over.right - over.left > 2.5 && over.bottom - over.top > least
        ? [`${one.words} lies over ${other.words}`]
        : [];
    }),
  );
}

/** Drawings that leave their room, and instruments that must be scrolled. */
function drawnOutside({ brief }: Tools): string[] {
  const outside = [...document.querySelectorAll('.instrument > svg')].flatMap((svg) => {
    const room = svg.getBoundingClientRect();
    return [...svg.querySelectorAll('path, circle, text')].flatMap((part) => {
      const box = part.getBoundingClientRect();
      const out = Math.max(room.left - box.left, box.right - room.right, room.top - box.top, box.bottom - room.bottom);
      return out > 4 ? [`drawn ${Math.round(out)} px out of its room: ${part.tagName} ${brief(part.textContent)}`] : [];
    });
  });
  const room = document.querySelector('.stage--fill .stage__room');
  const scrolled = room === null ? 0 : room.scrollHeight - room.clientHeight;
  return scrolled > 1 ? [...outside, `an instrument scrolls by ${scrolled} px`] : outside;
}

/** Targets whose smaller side is less than a gloved finger needs; what stands in a label is reached through it. */
function smallTargets({ tools, least_px }: { readonly tools: Tools; readonly least_px: number }): string[] {
  const targets = 'button, a[href], input, textarea, summary, [role="slider"], label.choice__option, label.switch';
  return [...tools.page.querySelectorAll<HTMLElement>(targets)].flatMap((target) => {
    const { width, height } = target.getBoundingClientRect();
    // A slider's field lies unseen in what is drawn aside.
    const inLabel = target.tagName === 'INPUT' && target.closest('label, .mover') !== null;
    if (inLabel || !tools.seen(target) || width <= 1 || height <= 1) return [];
    const name = tools.brief(target.getAttribute('aria-label') ?? target.textContent);
    return Math.min(width, height) < least_px - 0.5
      ? [`small target ${Math.round(width)} × ${Math.round(height)}: ${name}`]
      : [];
  });
}
