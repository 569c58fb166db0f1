import { type Edge, edgeNames, type Mark } from '../mark.ts';
import { type Meaning, say, type SeenAt } from './sentence.ts';

/** Sharp lines at an edge: the load sits there. */
export function hardLines({ drive, coast }: SeenAt): readonly Meaning[] {
  return [...ofFlank('drive', drive), ...ofFlank('coast', coast), ...narrow('drive', drive), ...narrow('coast', coast)];
}

function ofFlank(flank: 'drive' | 'coast', mark: Mark | undefined): readonly Meaning[] {
  if (mark === undefined) return [];
  const hard = edgeNames.filter((edge) => mark.edges[edge] === 'hard');
  if (hard.length === 0) return [];
  return [
    say(
      'hard-line',
      'common-practice',
      `The ${flank} mark has a hard line at the ${inWords(hard)}: the load sits on that edge. Bring the mark off it before closing the axle; if position does not, look for a burr or a damaged edge.`,
    ),
  ];
}

const inWords = (edges: readonly Edge[]): string =>
  edges.length === 1 ? (edges[0] ?? '') : `${edges.slice(0, -1).join(', ')} and ${edges.at(-1) ?? ''}`;

/** Below this share of the height a long mark is a line. Own choice. */
const thin = 0.15;

function narrow(flank: 'drive' | 'coast', mark: Mark | undefined): readonly Meaning[] {
  if (mark === undefined || mark.height >= thin || mark.length < 0.3) return [];
  return [
    say(
      'hard-line',
      'common-practice',
      `The ${flank} mark is a narrow line: a burr, a step worn in, a bad cut or gears that do not belong together. Inspect before shimming.`,
    ),
  ];
}
