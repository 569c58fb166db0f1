import { meaningOf, type SeenAt } from '../../../../shared/axle/mark/meaning.ts';
import { marksAsk, type MarksAsk } from '../../../../shared/axle/mark/marksAsk.ts';
import type { Mark } from '../../../../shared/axle/mark/mark.ts';
import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import { type PlaceDraft, markAsFound, type SideDraft } from './draft.ts';

/** What the marks say first, while they are still being drawn. */
export function firstWord(build: Build, place: PlaceDraft): string {
  const { makeUp } = build;
  const seen = seenAt(place);
  if (makeUp === undefined || seen.drive === undefined) return '';
  const drive = ownDrive(build);
  const said = meaningOf({ seen: [seen], ...(drive === undefined ? {} : { asFound: { drive } }) }, makeUp);
  return said.find(({ kind }) => kind === 'height' || kind === 'tells-nothing')?.text ?? '';
}

/** Which of the three answers that is; as found there is nothing to decide yet. */
export function firstAnswer(build: Build, { phase }: Assembly, place: PlaceDraft): string {
  if (build.makeUp === undefined || phase === 'as-found') return '';
  return answers[marksAsk(seenAt(place), ownDrive(build), build.makeUp.gearSet)];
}

const answers: Readonly<Record<MarksAsk, string>> = {
  nothing: 'It lies where it belongs: Accept it.',
  'the-plan': 'Change shims weighs it against the trials before.',
  painting: '',
  'a-mark': '',
};

const ownDrive = (build: Build): Mark | undefined => as('drive', markAsFound(build)?.drive).drive;

const seenAt = ({ drive, coast }: PlaceDraft): SeenAt => ({ ...as('drive', drive), ...as('coast', coast) });

const as = (name: 'drive' | 'coast', side: SideDraft | { readonly none: string }): SeenAt =>
  side === undefined || side === 'no-mark' || 'none' in side ? {} : { [name]: side };
