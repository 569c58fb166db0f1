import type { Mark } from '../../axle/mark/mark.ts';
import type { FlanksInput, FlankView } from './flanksInput.ts';

/** Both flanks in words, for whoever cannot see the picture. */
export const flanksDescription = ({ drive, coast }: FlanksInput): string =>
  [viewWords('Drive', drive), viewWords('Coast', coast)].join(' ');

function viewWords(name: string, { flank, seen, found, planned }: FlankView): string {
  const parts = [
    seen === undefined ? 'no mark entered' : `mark ${markWords(seen)}`,
    ...(planned === undefined ? [] : [`planned ${placeWords(planned)}`]),
    ...(found === undefined ? [] : [`as found ${placeWords(found)}`]),
  ];
  return `${name} flank (${flank}): ${parts.join('; ')}.`;
}

/** "centre 12 % towards the toe, 5 % towards the root, 55 % long, 60 % high, hard at the toe". */
function markWords(mark: Mark): string {
  const edges = Object.entries(mark.edges)
    .filter(([, contact]) => contact !== 'clear')
    .map(([edge, contact]) => `, ${contact === 'hard' ? 'hard at' : 'fading out at'} the ${edge}`);
  return `${placeWords(mark)}, ${percent(mark.length)} long, ${percent(mark.height)} high${edges.join('')}`;
}

const placeWords = ({ heel, crown }: Mark): string =>
  `centre ${sideWords(heel, 'heel', 'toe')}, ${sideWords(crown, 'crown', 'root')}`;

/** "12 % towards the crown", "midway between root and crown". */
export const sideWords = (value: number, positive: string, negative: string): string =>
  Math.round(value * 100) === 0
    ? `midway between ${negative} and ${positive}`
    : `${percent(Math.abs(value))} towards the ${value > 0 ? positive : negative}`;

const percent = (fraction: number): string => `${Math.round(fraction * 100)} %`;
