import { sizeText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import {
  type LimitedQuantity,
  limitedNames,
  type LimitsChange,
  type Rule,
  type SpecSheet,
  specSheetSchema,
} from '../../../../shared/job/records/specSheet.ts';
import { phases } from '../../../../shared/job/records/checkIds.ts';
import { checksOf } from '../../../../shared/job/checks/checks.ts';
import { changesRead } from '../../../../shared/job/checks/limitChanges.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, wrong } from '../../../parts/draft.ts';
import type { ChangeErrors } from './ChangePanel.tsx';
import { blankLimit, isBlank, type LimitDraft, limitDraftOf, type LimitErrors, readLimit } from './draft.ts';

/** A spec sheet while it is being typed. */
export interface SheetDraft {
  readonly name: string;
  readonly rule: Rule;
  /** What stands below the limits, kept as it came. */
  readonly note: string | undefined;
  readonly rows: readonly LimitDraft[];
  /** Asked only where a limit changes that something was held against. */
  readonly why: string;
  readonly holds: LimitsChange['holds'] | undefined;
}

/** What is wrong with the sheet's name, and with which of its lines, each by its key. */
export type SheetErrors = {
  readonly name?: string;
  readonly rows?: Readonly<Record<string, LimitErrors>>;
  readonly change?: ChangeErrors;
};

/** The quantities that an axle of this make-up can be asked for, in the order of the job. */
export function quantitiesAsked(makeUp: MakeUp | undefined): readonly LimitedQuantity[] {
  if (makeUp === undefined) return limitedNames;
  const asked = new Set(phases.flatMap((phase) => checksOf(phase, makeUp).flatMap((check) => check.limits)));
  return limitedNames.filter((quantity) => asked.has(quantity));
}

/** The rows of a sheet: every limit it has, and an empty row for each quantity that is asked and has none. */
export function rowsOf(
  sheet: SpecSheet | undefined,
  makeUp: MakeUp | undefined,
  system: UnitSystem,
): readonly LimitDraft[] {
  const limits = sheet?.limits ?? [];
  const asked = quantitiesAsked(makeUp);
  return limitedNames.flatMap((quantity) => {
    const own = limits.filter((limit) => limit.quantity === quantity);
    if (own.length > 0) return own.map((limit, index) => limitDraftOf(limit, `${quantity}-${index}`));
    return asked.includes(quantity) ? [blankLimit(quantity, `${quantity}-0`, system)] : [];
  });
}

export const sheetDraftOf = (build: Build, system: UnitSystem): SheetDraft => ({
  name: build.specSheet?.name ?? usualName(build, system),
  rule: build.specSheet?.rule ?? 'simple',
  note: build.specSheet?.note,
  rows: rowsOf(build.specSheet, build.makeUp, system),
  why: '',
  holds: undefined,
});

/** A sheet of the library as the draft of this build. */
export const copyOf = (
  sheet: SpecSheet,
  makeUp: MakeUp | undefined,
  system: UnitSystem,
): Pick<SheetDraft, 'name' | 'rule' | 'note' | 'rows'> => ({
  name: sheet.name,
  rule: sheet.rule,
  note: sheet.note,
  rows: rowsOf(sheet, makeUp, system),
});

/** A sheet is looked for when another axle like this one comes: it is called by what that one will have too. */
function usualName({ makeUp, title }: Build, system: UnitSystem): string {
  if (makeUp === undefined) return title;
  const teeth = `${makeUp.pinionTeeth}/${makeUp.ringTeeth}`;
  return makeUp.outerDiameter_mm === undefined ? teeth : `${teeth}, ${sizeText(makeUp.outerDiameter_mm, system)}`;
}

/** The sheet a draft stands for, or what is wrong where. Rows without a number are left out. */
export function readSheet(
  draft: Pick<SheetDraft, 'name' | 'rule' | 'rows' | 'note'>,
): DraftRead<SpecSheet, SheetErrors> {
  const read = draft.rows.filter((row) => !isBlank(row)).map((row) => ({ key: row.key, ...readLimit(row) }));
  const rows = Object.fromEntries(read.flatMap((one) => (one.ok ? [] : [[one.key, one.errors]])));
  const name = draft.name.trim() === '' ? { name: 'Give the sheet a name.' } : {};
  if (Object.keys(rows).length > 0 || 'name' in name) return wrong({ ...name, rows });
  const limits = read.flatMap((one) => (one.ok ? [one.value] : []));
  return ok(
    specSheetSchema.parse({
      name: draft.name,
      rule: draft.rule,
      limits,
      ...(draft.note === undefined ? {} : { note: draft.note }),
    }),
  );
}

/** What the sheet as drafted would change under readings that were taken; undefined where it changes nothing of them. */
export function changedBy(build: Build, draft: SheetDraft): ReturnType<typeof changesRead> | undefined {
  const sheet = readSheet(draft);
  const changed = sheet.ok ? changesRead(build, sheet.value) : undefined;
  return changed === undefined || changed.readings.length === 0 ? undefined : changed;
}

interface SheetRead {
  readonly specSheet: SpecSheet;
  readonly change?: LimitsChange;
}

/** As {@link readSheet}; and where readings are touched, the reason and what becomes of them. */
export function readChangedSheet(build: Build, draft: SheetDraft): DraftRead<SheetRead, SheetErrors> {
  const sheet = readSheet(draft);
  if (!sheet.ok) return sheet;
  if (changedBy(build, draft) === undefined) return ok({ specSheet: sheet.value });
  const { why, holds } = draft;
  if (holds !== undefined && why.trim().length >= fewestLetters)
    return ok({ specSheet: sheet.value, change: { why: why.trim(), holds } });
  return wrong({
    change: {
      ...(why.trim().length < fewestLetters ? { why: 'Say why.' } : {}),
      ...(holds === undefined ? { holds: 'Say which.' } : {}),
    },
  });
}

/** Shorter than this nobody can tell later what was meant (own choice). */
const fewestLetters = 3;
