import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import {
  type LimitedQuantity,
  limitedQuantities,
  type Rule,
  type SpecSheet,
  specSheetSchema,
} from '../../../../shared/job/records/specSheet.ts';
import { phases } from '../../../../shared/job/records/checkIds.ts';
import { checksOf } from '../../../../shared/job/checks/checks.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, wrong } from '../../../parts/draft.ts';
import { blankLimit, isBlank, type LimitDraft, limitDraftOf, type LimitErrors, readLimit } from './draft.ts';

/** A spec sheet while it is being typed. */
export interface SheetDraft {
  readonly name: string;
  readonly rule: Rule;
  readonly rows: readonly LimitDraft[];
}

/** What is wrong with the sheet's name, and with which of its lines, each by its key. */
export type SheetErrors = { readonly name?: string; readonly rows?: Readonly<Record<string, LimitErrors>> };

/** The quantities that an axle of this make-up can be asked for, in the order of the job. */
export function quantitiesAsked(makeUp: MakeUp | undefined): readonly LimitedQuantity[] {
  const all = Object.keys(limitedQuantities) as LimitedQuantity[];
  if (makeUp === undefined) return all;
  const asked = new Set(phases.flatMap((phase) => checksOf(phase, makeUp).flatMap((check) => check.limits)));
  return all.filter((quantity) => asked.has(quantity));
}

/** The rows of a sheet: every limit it has, and an empty row for each quantity that is asked and has none. */
export function rowsOf(
  sheet: SpecSheet | undefined,
  makeUp: MakeUp | undefined,
  system: UnitSystem,
): readonly LimitDraft[] {
  const limits = sheet?.limits ?? [];
  const quantities = Object.keys(limitedQuantities) as LimitedQuantity[];
  const asked = quantitiesAsked(makeUp);
  return quantities.flatMap((quantity) => {
    const own = limits.filter((limit) => limit.quantity === quantity);
    if (own.length > 0) return own.map((limit, index) => limitDraftOf(limit, `${quantity}-${index}`));
    return asked.includes(quantity) ? [blankLimit(quantity, `${quantity}-0`, system)] : [];
  });
}

export const sheetDraftOf = (build: Build, system: UnitSystem): SheetDraft => ({
  name: build.specSheet?.name ?? build.title,
  rule: build.specSheet?.rule ?? 'simple',
  rows: rowsOf(build.specSheet, build.makeUp, system),
});

/** The sheet a draft stands for, or what is wrong where. Rows without a number are left out. */
export function readSheet(draft: SheetDraft): DraftRead<SpecSheet, SheetErrors> {
  const read = draft.rows.filter((row) => !isBlank(row)).map((row) => ({ key: row.key, ...readLimit(row) }));
  const rows = Object.fromEntries(read.flatMap((one) => (one.ok ? [] : [[one.key, one.errors]])));
  const name = draft.name.trim() === '' ? { name: 'Give the sheet a name.' } : {};
  if (Object.keys(rows).length > 0 || 'name' in name) return wrong({ ...name, rows });
  const limits = read.flatMap((one) => (one.ok ? [one.value] : []));
  return ok(specSheetSchema.parse({ name: draft.name, rule: draft.rule, limits }));
}
