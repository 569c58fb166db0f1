import { units } from '../../../../shared/basics/units.ts';
import type { Mark } from '../../../../shared/axle/mark/mark.ts';
import { type BearingState, insideOf } from '../../../../shared/basics/recorded.ts';
import type { MarkResult } from '../../../../shared/job/records/measurement.ts';
import { fail, isNone, ok, type Problem, type Result } from '../../../../shared/basics/result.ts';
import { type QuantityDraft, readDraft, symbolOf } from '../../../parts/quantity.ts';

type Made = NonNullable<Mark['made']>;

/** How the mark was made, as it is written: what was not said stays empty. */
export interface MadeDraft {
  readonly compound: string;
  /** As typed, or as taken from the torque gauge. */
  readonly drag: QuantityDraft;
  readonly turns: string;
  readonly film: QuantityDraft;
}

export const blankMade: MadeDraft = {
  compound: '',
  drag: { text: '', unit: units.Nm.ucum },
  turns: '',
  film: { text: '', unit: units.um.ucum },
};

export function madeDraftOf(result: MarkResult): MadeDraft {
  const made = [result.drive, result.coast].flatMap((mark) => (isNone(mark) ? [] : [mark.made ?? {}]))[0] ?? {};
  return {
    compound: result.compound ?? '',
    drag: { ...blankMade.drag, text: made.drag_Nm === undefined ? '' : String(made.drag_Nm) },
    turns: made.turns === undefined ? '' : String(made.turns),
    film: { ...blankMade.film, text: made.film_um === undefined ? '' : String(made.film_um) },
  };
}

/** Reads what was written; the bearings follow from the assembly. */
export function readMade({ drag, turns, film }: MadeDraft, bearings: BearingState): Result<Made> {
  const felt = quantityOf(drag, 'torque', 'drag');
  if (felt !== undefined && !felt.ok) return felt;
  const thick = quantityOf(film, 'length', 'film');
  if (thick !== undefined && !thick.ok) return thick;
  const turned = turns.trim() === '' ? undefined : Number(turns.replace(',', '.'));
  if (turned !== undefined && !(turned > 0 && turned <= 100)) return fail(noTurns(turns));
  return ok({
    bearings,
    ...(felt === undefined ? {} : { drag_Nm: felt.value }),
    ...(turned === undefined ? {} : { turns: turned }),
    ...(thick === undefined || thick.value <= 0 ? {} : { film_um: thick.value * 1000 }),
  });
}

function quantityOf(draft: QuantityDraft, measure: 'torque' | 'length', field: string): Result<number> | undefined {
  if (draft.text.trim() === '') return undefined;
  const typed = readDraft(draft, measure, field);
  return typed.ok ? ok(Math.abs(insideOf(typed.value))) : typed;
}

const noTurns = (text: string): Problem => ({
  kind: 'not-a-number',
  field: 'turns',
  sentence: `"${text}" is no number of turns.`,
  remedy: 'Write how many times the ring gear was turned each way, such as 3.',
});

/** How it was made, in the few words a button has room for. */
export function madeWords({ compound, drag, turns }: MadeDraft): string {
  const said = [
    compound.trim(),
    drag.text.trim() === '' ? '' : `drag ${drag.text.trim()} ${symbolOf(drag.unit)}`,
    turns.trim() === '' ? '' : `${turns.trim()} turns`,
  ].filter((one) => one !== '');
  return said.length === 0 ? 'How it was made' : said.join(', ');
}
