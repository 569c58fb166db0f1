import { listed } from '../../../basics/listed.ts';
import { edgeNames, type Mark } from '../mark.ts';
import { type Meaning, say, type SeenAt } from './sentence.ts';

/** Sharp lines at an edge: the load sits there. A used set is asked only for those that its own mark did not have. */
export function hardLines({ drive, coast }: SeenAt, own: SeenAt = {}): readonly Meaning[] {
  return [
    ...ofFlank('drive', drive, own.drive),
    ...ofFlank('coast', coast, own.coast),
    ...narrow('drive', drive, own.drive),
    ...narrow('coast', coast, own.coast),
  ];
}

function ofFlank(flank: 'drive' | 'coast', mark: Mark | undefined, own: Mark | undefined): readonly Meaning[] {
  if (mark === undefined) return [];
  const hard = edgeNames.filter((edge) => mark.edges[edge] === 'hard' && own?.edges[edge] !== 'hard');
  if (hard.length === 0) return [];
  if (own !== undefined) {
    return [
      say(
        'hard-line',
        'common-practice',
        `The ${flank} mark has a hard line at the ${listed(hard)} that it did not have as found: it does not lie where it ran, or something there is damaged.`,
      ),
    ];
  }
  return [
    say(
      'hard-line',
      'common-practice',
      `The ${flank} mark has a hard line at the ${listed(hard)}: the load sits on that edge. Bring the mark off it before closing the axle; if position does not, look for a burr or a damaged edge.`,
    ),
  ];
}

/** Below this share of the height a long mark is a line. Own choice. */
const thin = 0.15;

function narrow(flank: 'drive' | 'coast', mark: Mark | undefined, own: Mark | undefined): readonly Meaning[] {
  if (mark === undefined || mark.height >= thin || mark.length < 0.3) return [];
  if (own !== undefined && own.height < thin) return [];
  return [
    say(
      'hard-line',
      'common-practice',
      `The ${flank} mark is a narrow line: a burr, a step worn in, a bad cut or gears that do not belong together. Inspect before shimming.`,
    ),
  ];
}
