import { unitNamed } from '../../../../shared/basics/units.ts';
import { insideOf, lengthTypedSchema } from '../../../../shared/basics/recorded.ts';
import type { ShimPlace } from '../../../../shared/axle/makeUp.ts';
import type { ShimPack } from '../../../../shared/job/records/measurement.ts';
import { fail, ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import { type QuantityDraft, readDraft } from '../../../parts/quantity.ts';

type PackLength = ShimPack['pack'];

/** The shims of one place while they are typed: each on its own, and the pack as clamped. */
export interface PackDraft {
  readonly place: ShimPlace;
  /** "1.02 + 0.13 + 0.05": numbers apart, in the unit of the pack. */
  readonly each: string;
  readonly pack: QuantityDraft;
}

export const placeWords: Readonly<Record<ShimPlace, string>> = {
  'pinion-depth': 'Pinion depth',
  'pinion-preload': 'Pinion preload',
  'ring-side': 'Ring-gear side',
  'opposite-side': 'Opposite side',
};

/** Each shim as a typed length. Anything between the numbers separates them, a plus sign and a comma before a gap included. */
export function readEach(draft: PackDraft): Result<readonly PackLength[]> {
  const parts = draft.each.split(/,\s+|[\s;+]+/u).filter((part) => part !== '');
  const read = parts.map((text) => readLength({ text, unit: draft.pack.unit }, placeWords[draft.place]));
  const wrong = read.find((one) => !one.ok);
  return wrong !== undefined && !wrong.ok ? wrong : ok(read.flatMap((one) => (one.ok ? [one.value] : [])));
}

function readLength(draft: QuantityDraft, field: string): Result<PackLength> {
  const read = readDraft(draft, 'length', field);
  return read.ok ? ok(lengthTypedSchema.parse(read.value)) : read;
}

/** What the single shims come to, in the unit they are typed in; the pack as clamped is what counts. */
export function sumOf(draft: PackDraft): string | undefined {
  const each = readEach(draft);
  const unit = unitNamed(draft.pack.unit);
  if (!each.ok || each.value.length < 2 || unit === undefined) return undefined;
  const sum = each.value.reduce((all, one) => all + insideOf(one), 0) / unit.factor;
  return `${sum.toFixed(unit.ucum === '[in_i]' ? 4 : 3)} ${unit.symbol}`;
}

/** No pack of shims is so thick, cast spacers included (own choice, from no table): a point was lost, or the unit is another. */
const thickest_mm = 15;

const tooThick = ({ place, pack }: PackDraft): Problem => ({
  kind: 'no-pack-so-thick',
  field: placeWords[place],
  sentence: `${pack.text.trim()} ${unitNamed(pack.unit)?.symbol ?? pack.unit} is thicker than any pack. Look at the point and the unit.`,
  remedy: 'Type it again.',
});

/** Their sum is no pack: oil and burrs lie between shims, and they count as they lie when squeezed (common practice). */
const noPackAround = (place: ShimPlace): Problem => ({
  kind: 'unanswered',
  field: placeWords[place],
  sentence: `${placeWords[place]}: the pack as clamped is missing.`,
  remedy: 'Measure the shims together.',
});

export function readPack(draft: PackDraft): Result<ShimPack> {
  const each = readEach(draft);
  if (!each.ok) return each;
  if (draft.pack.text.trim() === '' && each.value.length > 0) return fail(noPackAround(draft.place));
  const pack = readLength(draft.pack, placeWords[draft.place]);
  if (pack.ok && insideOf(pack.value) > thickest_mm) return fail(tooThick(draft));
  return pack.ok ? ok({ place: draft.place, each: [...each.value], pack: pack.value }) : pack;
}

/** Whether nothing is typed at this place. */
export const isEmpty = ({ pack, each }: PackDraft): boolean => pack.text.trim() === '' && each.trim() === '';

export const noPack = 'No pack is typed yet: measure at least one place.';

/** The packs that were typed; a place left empty is not recorded, and at least one has to be there. */
export function readPacks(drafts: readonly PackDraft[]): Result<readonly ShimPack[]> {
  const typed = drafts.filter((draft) => !isEmpty(draft));
  if (typed.length === 0) {
    return fail({ kind: 'unanswered', sentence: noPack, remedy: 'Measure at least one place.' });
  }
  const read = typed.map(readPack);
  const wrong = read.find((one) => !one.ok);
  return wrong !== undefined && !wrong.ok ? wrong : ok(read.flatMap((one) => (one.ok ? [one.value] : [])));
}
