import { isNone, type OrNone } from '../../basics/result.ts';
import { insideOf } from '../../basics/recorded.ts';
import { judge } from '../../measuring/uncertainty/verdict.ts';
import { type Assembly, type Build, type Measurement, readNotebook } from '../records/build.ts';
import { type Entry, standing } from '../records/notebook.ts';
import type { MeasuredResult } from '../records/measurement.ts';
import { endsOf, type Limit, type Rule } from '../records/specSheet.ts';
import type { CertificateData, CheckHashed, Judged } from './certificateData.ts';
import { figuresAgainst } from './figuresAgree.ts';
import { isUnsettled } from './missing.ts';

/**
 * Where the data of a certificate contradict themselves, in words; undefined where they agree. It asks nothing that a later
 * program may decide otherwise (which checks there are, which of them are needed, how they are called), so that it holds
 * for certificates of every release: figures follow from each other, what counts stands in the notebook, a verdict follows
 * from its value, its doubt and its limit, and what is missing is what the checks say.
 */
export const contradiction = (data: CertificateData): string | undefined =>
  judgementAgainst(data) ??
  missingAgainst(readNotebook(data.build, data.notebook), data.judged) ??
  readingsAgainst(data);

/** Where what is judged of each assembly contradicts the notebook beside it. */
export function judgementAgainst(
  data: Pick<CertificateData, 'notebook' | 'asOf' | 'build'> & { readonly judged: Pick<Judged, 'assemblies'> },
): string | undefined {
  if (standing(data.notebook)[0]?.deed.kind !== 'started')
    return 'its notebook does not begin with the start of a build';
  if (data.asOf !== data.notebook.at(-1)?.at) return 'asOf is not the moment of the last entry';
  const build = readNotebook(data.build, data.notebook);
  return figuresOfAll(data.notebook) ?? assembliesAgainst(build, data.judged, rulesIn(data.notebook));
}

/** Entries that were struck are on paper too. */
function figuresOfAll(entries: readonly Entry[]): string | undefined {
  for (const { id, deed } of entries) {
    const found = deed.kind === 'measured' ? figuresAgainst(deed.result) : undefined;
    if (found !== undefined) return `in entry ${id}, ${found}`;
  }
  return undefined;
}

/** Every rule that was ever in force: a limit is judged by that of its day. */
function rulesIn(entries: readonly Entry[]): readonly Rule[] {
  const named = entries.flatMap(({ deed }) => (deed.kind === 'limits-set' ? [deed.specSheet.rule] : []));
  return named.length === 0 ? ['simple'] : [...new Set(named)];
}

function assembliesAgainst(
  build: Build,
  judged: Pick<Judged, 'assemblies'>,
  rules: readonly Rule[],
): string | undefined {
  if (judged.assemblies.length !== build.assemblies.length)
    return `it judges ${judged.assemblies.length} assemblies, its notebook has ${build.assemblies.length}`;
  for (const [index, assembly] of build.assemblies.entries()) {
    const said = judged.assemblies[index];
    if (said?.id !== assembly.id || said.phase !== assembly.phase || said.number !== assembly.number)
      return `assembly ${index + 1} is not the one in its notebook`;
    const found = said.checks
      .map((check) => checkAgainst(build, assembly, check, rules))
      .find((one) => one !== undefined);
    if (found !== undefined) return `${assembly.phase} ${assembly.number}, ${found}`;
  }
  return undefined;
}

function checkAgainst(build: Build, assembly: Assembly, said: CheckHashed, rules: readonly Rule[]): string | undefined {
  const on = said.carriedFrom === undefined ? assembly : build.assemblies.find(({ id }) => id === said.carriedFrom);
  const taken = on?.measurements.filter((one) => one.check === said.check) ?? [];
  const counts = taken.at(-1);
  if (counts?.id !== said.measurement) return `${said.check}: the measurement that counts is another one`;
  const own = assembly.measurements.filter((one) => one.check === said.check).length;
  if (said.earlier !== Math.max(0, own - 1)) return `${said.check}: the number of earlier measurements is another one`;
  const overridden = build.assemblies.some(
    (one) => one.id === assembly.id && one.overrides.some(({ check }) => check === said.check),
  );
  if (said.overridden !== overridden) return `${said.check}: overridden or not is not as in its notebook`;
  if (counts === undefined && said.standing !== 'not-measured')
    return `${said.check}: it stands as ${said.standing} without a measurement`;
  return said.limits.map((limit) => limitAgainst(limit, counts, said, rules)).find((one) => one !== undefined);
}

type LimitSaid = CheckHashed['limits'][number];

function limitAgainst(
  said: LimitSaid,
  measurement: Measurement | undefined,
  { check, standing: stands }: CheckHashed,
  rules: readonly Rule[],
): string | undefined {
  const { value, verdict, otherBasis } = said;
  if (isNone(value) || otherBasis === true)
    return verdict === 'not-measured' ? undefined : `${check}: a verdict without a number`;
  if (measurement === undefined) return `${check}: a number without a measurement`;
  const { result } = measurement;
  if (result.kind === 'feeler') return undefined;
  if (!numbersOf(result, said.limit).some((one) => one === value))
    return `${check}: the number judged is not in its measurement`;
  if (!rules.some((rule) => isVerdict(said, value, rule)))
    return `${check}: its verdict does not follow from its number`;
  return verdict === 'outside' && stands !== 'outside'
    ? `${check}: outside a limit, and said to be ${stands}`
    : undefined;
}

function isVerdict({ limit, U95, verdict, closeCall }: LimitSaid, value: number, rule: Rule): boolean {
  const should = judge(value, U95, endsOf(limit), rule);
  return should.verdict === verdict && should.closeCall === closeCall;
}

/** Every number of a result that a limit may judge. */
function numbersOf(result: MeasuredResult, { quantity }: Limit): readonly OrNone<number>[] {
  switch (result.kind) {
    case 'backlash':
      return quantity === 'backlash-variation'
        ? [result.variation_mm]
        : result.stations.map(({ value_mm }) => value_mm);
    case 'runout':
      return [result.tir_mm];
    case 'torque':
      return [result.running_Nm, result.breakaway_Nm];
    case 'quantity':
      return [insideOf(result.value)];
    default:
      return [];
  }
}

function missingAgainst(build: Build, judged: Judged): string | undefined {
  if (judged.complete !== (judged.missing.length === 0))
    return `complete says ${judged.complete}, and ${judged.missing.length} things are missing`;
  const lasts = new Map(judged.assemblies.map((assembly) => [assembly.phase, assembly]));
  const open = [...lasts.values()].flatMap(({ id, phase, checks }) =>
    checks
      .filter((check) => !check.overridden && isUnsettled(phase, check))
      .map(({ check, standing: stands }) => JSON.stringify([id, check, stands])),
  );
  const named = judged.missing.flatMap((one) =>
    one.what === 'check' ? [JSON.stringify([one.assembly, one.check, one.standing])] : [],
  );
  if (open.toSorted().join('\n') !== named.toSorted().join('\n')) return 'what is missing is not what its checks say';
  const absent = (what: string): boolean => judged.missing.some((one) => one.what === what);
  if (absent('description') !== (build.makeUp === undefined))
    return 'whether the axle was described is not as in its notebook';
  return absent('limits') === (build.specSheet === undefined)
    ? undefined
    : 'whether limits were entered is not as in its notebook';
}

/** A stretch belongs to entries that name it. */
function readingsAgainst({ readings, notebook }: CertificateData): string | undefined {
  const named = new Set(readings.stretches.flatMap(({ entries }) => entries));
  const without = notebook.find(({ id, deed }) => 'how' in deed && deed.how.kind === 'streamed' && !named.has(id));
  return without === undefined ? undefined : `entry ${without.id} rests on readings that its data do not name`;
}
