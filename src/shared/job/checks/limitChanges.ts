import { type Assembly, assemblyName, type Build, type Measurement, type SheetSet } from '../records/build.ts';
import { endsOf, type Limit, type Rule, type SpecSheet } from '../records/specSheet.ts';
import { type Check, checkOf } from './checks.ts';
import { judgeCheck } from './judge.ts';

/** One line of the limits that is not what it was. An added line has no `from`, one that was taken out no `to`. */
export interface LineChange {
  readonly from?: Limit;
  readonly to?: Limit;
}

/** A reading that was held against a limit that changed afterwards. */
export interface ReadingTouched {
  readonly assembly: Assembly;
  readonly check: Check;
}

/** Limits that changed after something was held against them, as the notebook tells it. */
export interface LimitsChanged {
  readonly at: string;
  readonly by: string;
  readonly why: string;
  readonly holds: 'from-the-start' | 'from-now-on';
  readonly lines: readonly LineChange[];
  /** The rule that decided before, where that changed too. */
  readonly ruleWas?: Rule;
  /** "Trial 1, backlash". */
  readonly readings: readonly string[];
}

/** A limit is told apart by what it is for and the state it is read in. */
const keyOf = (limit: Limit): string => JSON.stringify([limit.quantity, 'basis' in limit ? limit.basis : '']);

const isAlike = (a: Limit, b: Limit): boolean => JSON.stringify(endsOf(a)) === JSON.stringify(endsOf(b));

const byKey = (sheet: SpecSheet | undefined): ReadonlyMap<string, Limit> =>
  new Map((sheet?.limits ?? []).map((limit) => [keyOf(limit), limit]));

/** Lines of a sheet that are other, new or gone in the next one. Where a limit comes from may be written otherwise. */
function lineChanges(was: SpecSheet | undefined, is: SpecSheet): readonly LineChange[] {
  const [before, after] = [byKey(was), byKey(is)];
  return [...new Set([...before.keys(), ...after.keys()])].flatMap((key) => {
    const [from, to] = [before.get(key), after.get(key)];
    if (from !== undefined && to !== undefined && isAlike(from, to)) return [];
    return [{ ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) }];
  });
}

/**
 * The limits one measurement is held against: those of the sheet that stood when it was taken. A line entered later, where
 * there was none, holds for it too; a line changed later only if the change was written down as a correction, or in a
 * notebook of a time when a change was not asked for its reason.
 */
export function sheetFor(build: Build, { id }: Pick<Measurement, 'id'>): SpecSheet | undefined {
  const { sheets, specSheet } = build;
  if (specSheet === undefined) return undefined;
  const stood = sheets.findLastIndex(({ before }) => !before.has(id));
  let limits = byKey(sheets[stood]?.specSheet);
  let rule = sheets[stood]?.specSheet.rule;
  for (const [index, later] of sheets.entries()) {
    if (index <= stood) continue;
    const was = sheets[index - 1]?.specSheet;
    limits = withLater(limits, was, later);
    if (rule === undefined || later.change?.holds !== 'from-now-on') rule = later.specSheet.rule;
  }
  return { ...specSheet, rule: rule ?? specSheet.rule, limits: [...limits.values()] };
}

function withLater(
  limits: ReadonlyMap<string, Limit>,
  was: SpecSheet | undefined,
  { specSheet, change }: SheetSet,
): ReadonlyMap<string, Limit> {
  const next = new Map(limits);
  for (const { from, to } of lineChanges(was, specSheet)) {
    if (from !== undefined && change?.holds === 'from-now-on') continue;
    if (to !== undefined) next.set(keyOf(to), to);
    else if (from !== undefined) next.delete(keyOf(from));
  }
  return next;
}

/** What a new sheet would change of limits that readings were held against, and which readings these are. */
export function changesRead(
  build: Build,
  is: SpecSheet,
): { readonly lines: readonly LineChange[]; readonly readings: readonly ReadingTouched[] } {
  const was = build.specSheet;
  const changed = lineChanges(was, is).filter(({ from }) => from !== undefined);
  const isOtherRule = was !== undefined && was.rule !== is.rule;
  const judged = build.assemblies.flatMap((assembly) =>
    assembly.measurements.map((measurement) => ({
      assembly,
      measurement,
      keys: keysJudging(build, assembly, measurement),
    })),
  );
  const touches = ({ from }: LineChange, keys: ReadonlySet<string>): boolean =>
    from !== undefined && keys.has(keyOf(from));
  const touched = judged.filter(({ keys }) =>
    isOtherRule ? keys.size > 0 : changed.some((line) => touches(line, keys)),
  );
  return {
    lines: changed.filter((line) => touched.some(({ keys }) => touches(line, keys))),
    readings: touched.map(({ assembly, measurement }) => ({ assembly, check: checkOf(measurement.check) })),
  };
}

/** The limits that gave a reading its verdict. */
function keysJudging(build: Build, assembly: Assembly, measurement: Measurement): ReadonlySet<string> {
  const { limits } = judgeCheck(checkOf(measurement.check), measurement, assembly, sheetFor(build, measurement));
  return new Set(limits.filter(({ otherBasis }) => otherBasis !== true).map(({ limit }) => keyOf(limit)));
}

/** Every change of a limit that something had been held against, in order, each with its reason. */
export const limitsChanged = (build: Build): readonly LimitsChanged[] =>
  build.sheets.flatMap(({ at, by, specSheet, change, before }, index) => {
    const was = build.sheets[index - 1]?.specSheet;
    if (change === undefined || was === undefined) return [];
    const then = asOf(build, index, before);
    const { lines, readings } = changesRead(then, specSheet);
    return [
      {
        at,
        by,
        ...change,
        lines,
        ...(was.rule === specSheet.rule ? {} : { ruleWas: was.rule }),
        readings: [...new Set(readings.map(readingWords))],
      },
    ];
  });

/** "Trial 1, backlash". */
export const readingWords = ({ assembly, check }: ReadingTouched): string =>
  `${assemblyName(assembly)}, ${check.title.toLowerCase()}`;

/** The build as it stood before its limits were set for the `index`-th time. */
function asOf(build: Build, index: number, before: ReadonlySet<string>): Build {
  const sheets = build.sheets.slice(0, index);
  const specSheet = sheets.at(-1)?.specSheet;
  const assemblies = build.assemblies.map((assembly) => ({
    ...assembly,
    measurements: assembly.measurements.filter(({ id }) => before.has(id)),
  }));
  return { ...build, sheets, assemblies, ...(specSheet === undefined ? {} : { specSheet }) };
}
