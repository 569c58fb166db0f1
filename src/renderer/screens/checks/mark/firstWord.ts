import { meaningOf, type SeenAt } from '../../../../shared/axle/mark/meaning.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { PlaceDraft, SideDraft } from './draft.ts';

/** What the marks say first, while they are still being drawn. */
export function firstWord({ makeUp }: Build, { drive, coast }: PlaceDraft): string {
  if (makeUp === undefined) return '';
  const seen = { ...as('drive', drive), ...as('coast', coast) };
  if (!('drive' in seen)) return '';
  const said = meaningOf({ seen: [seen] }, makeUp);
  return said.find(({ kind }) => kind === 'height')?.text ?? '';
}

const as = (name: 'drive' | 'coast', side: SideDraft): SeenAt =>
  side === undefined || side === 'no-mark' ? {} : { [name]: side };
