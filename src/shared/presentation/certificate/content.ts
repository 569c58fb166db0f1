import type { Notebook } from '../../job/records/notebook.ts';
import {
  type Assembly,
  assemblyName,
  type Build,
  type Measurement,
  type Note,
  type Override,
  readNotebook,
} from '../../job/records/build.ts';
import { calibrationOn, type GaugeSeen } from '../../job/records/gauge.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { Entry } from '../../job/records/notebook.ts';
import type { Rule, SpecSheet } from '../../job/records/specSheet.ts';
import { type Phase, phases } from '../../job/records/checkIds.ts';
import { limitsChanged, type LimitsChanged } from '../../job/checks/limitChanges.ts';
import type { LimitJudged, Standing } from '../../job/checks/judge.ts';
import { type CheckState, isDescribed, markJudgement, readinessOf } from '../../job/checks/readiness.ts';
import { cautions, statement } from './words.ts';

/** Version of the certificate's data; a reader that does not know it must say so. */
export const certificateVersion = 1;

export interface CertificateCheck {
  readonly check: string;
  readonly title: string;
  readonly needed: 'required' | 'optional';
  readonly standing: Standing;
  readonly closeCall: boolean;
  readonly why?: string;
  readonly limits: readonly LimitJudged[];
  /** The measurement that counts; absent when there is none. */
  readonly measurement?: Measurement;
  /** Name of the earlier trial it was taken on, where it carries over. */
  readonly carriedFrom?: string;
  /** How many earlier measurements of this check the notebook keeps. */
  readonly earlier: number;
  readonly override?: Override;
}

export interface CertificateAssembly {
  readonly id: string;
  readonly name: string;
  readonly phase: Phase;
  readonly at: string;
  readonly bearings: Assembly['bearings'];
  readonly seal: Assembly['seal'];
  readonly sleeve: boolean;
  readonly checks: readonly CertificateCheck[];
}

export interface CertificateGauge {
  readonly gauge: GaugeSeen;
  readonly typed: boolean;
  /** Against the day of the first measurement taken with it. */
  readonly calibration: 'in-date' | 'past' | 'not-stated';
}

/** What a certificate says, all of it. The PDF draws it; the attachment is it. */
export interface CertificateContent {
  readonly kind: 'axlewright-certificate';
  readonly version: typeof certificateVersion;
  readonly build: {
    readonly id: string;
    readonly title: string;
    readonly technician: string;
    readonly startedAt: string;
    readonly comebackOf?: string;
  };
  /** The moment of the last entry it rests on: the same record gives the same certificate, whenever it is drawn. */
  readonly asOf: string;
  readonly complete: boolean;
  /** What is missing for a complete one, each in a sentence. */
  readonly missing: readonly string[];
  readonly statement: string;
  readonly cautions: readonly string[];
  readonly rule: Rule;
  readonly makeUp?: MakeUp;
  readonly specSheet?: SpecSheet;
  /** Limits that changed after something had been held against them; absent where none did. */
  readonly limitChanges?: readonly LimitsChanged[];
  readonly notes: readonly Note[];
  readonly assemblies: readonly CertificateAssembly[];
  readonly gauges: readonly CertificateGauge[];
  /** The whole notebook, struck entries included, so that anyone can work all this out again. */
  readonly notebook: readonly Entry[];
}

/** Reads a notebook into what its certificate says. A certificate is a function of the record and of nothing else. */
export function certificateContent(notebook: Notebook): CertificateContent {
  const entries = notebook.entries.filter((entry) => entry.deed.kind !== 'certified');
  const build = readNotebook(notebook.id, entries);
  const assemblies = build.assemblies.map((assembly) => assemblyContent(build, assembly));
  const missing = whatIsMissing(build, assemblies);
  const limitChanges = limitsChanged(build);
  return {
    kind: 'axlewright-certificate',
    version: certificateVersion,
    build: {
      id: build.id,
      title: build.title,
      technician: build.technician,
      startedAt: build.startedAt,
      ...(build.comebackOf === undefined ? {} : { comebackOf: build.comebackOf }),
    },
    asOf: entries.at(-1)?.at ?? build.startedAt,
    complete: missing.length === 0,
    missing,
    statement,
    cautions,
    rule: build.specSheet?.rule ?? 'simple',
    ...(build.makeUp === undefined ? {} : { makeUp: build.makeUp }),
    ...(build.specSheet === undefined ? {} : { specSheet: build.specSheet }),
    ...(limitChanges.length === 0 ? {} : { limitChanges }),
    notes: build.notes,
    assemblies,
    gauges: gaugesOf(build),
    notebook: entries,
  };
}

function assemblyContent(build: Build, assembly: Assembly): CertificateAssembly {
  const { id, phase, at, bearings, seal, sleeve } = assembly;
  const states = isDescribed(build) ? readinessOf(build, assembly).states : [];
  return {
    id,
    name: assemblyName(assembly),
    phase,
    at,
    bearings,
    seal,
    sleeve,
    checks: states.map((state) => checkContent(assembly, state)),
  };
}

function checkContent(assembly: Assembly, state: CheckState): CertificateCheck {
  const taken = assembly.measurements.filter((one) => one.check === state.check.id).length;
  return {
    check: state.check.id,
    title: state.check.title,
    needed: state.needed,
    standing: state.standing,
    closeCall: state.closeCall,
    limits: state.limits,
    earlier: Math.max(0, taken - 1),
    ...(state.why === undefined ? {} : { why: state.why }),
    ...(state.measurement === undefined ? {} : { measurement: state.measurement }),
    ...(state.carriedFrom === undefined ? {} : { carriedFrom: state.carriedFrom }),
    ...(state.override === undefined ? {} : { override: state.override }),
  };
}

/**
 * What keeps a certificate incomplete: no description or limits, no final assembly that is ready to close, a
 * required reading that was neither taken nor overridden, a mark that was not accepted. Earlier trials may be
 * left unfinished: they were taken apart again.
 */
function whatIsMissing(build: Build, assemblies: readonly CertificateAssembly[]): readonly string[] {
  const missing: string[] = [];
  if (build.makeUp === undefined) missing.push('The axle has not been described.');
  if (build.specSheet === undefined) missing.push('No limits have been entered.');
  for (const phase of phases) {
    const assembly = assemblies.findLast((one) => one.phase === phase);
    if (assembly === undefined) missing.push(absent[phase]);
    else missing.push(...unsettled(assembly));
  }
  const final = build.assemblies.findLast((assembly) => assembly.phase === 'final');
  if (final !== undefined && final !== build.assemblies.at(-1))
    missing.push('The axle was taken apart again after its final assembly.');
  if (final !== undefined && markJudgement(final) !== 'accepted')
    missing.push('Final: the mark has not been accepted.');
  return missing;
}

const absent: Record<Phase, string> = {
  'as-found': 'Nothing was recorded before the axle was taken apart.',
  stripping: 'Nothing was recorded as the axle came apart.',
  trial: 'There was no trial assembly.',
  final: 'There is no final assembly.',
};

const unsettled = (assembly: CertificateAssembly): readonly string[] =>
  assembly.checks
    // Before the first trial, a reading outside its limits is what the axle came with, and only a missing one is missing.
    .filter(
      (check) => check.override === undefined && (isBefore(assembly) ? notTaken(check) : unsettledStanding(check)),
    )
    .map((check) => `${assembly.name}: ${check.title.toLowerCase()} – ${standingWords[check.standing]}.`);

const isBefore = ({ phase }: CertificateAssembly): boolean => phase === 'as-found' || phase === 'stripping';

const notTaken = ({ standing, needed }: CertificateCheck): boolean =>
  needed === 'required' && standing === 'not-measured';

const unsettledStanding = ({ standing, needed }: CertificateCheck): boolean =>
  standing === 'outside' || standing === 'too-close' || (needed === 'required' && standing === 'not-measured');

const standingWords: Record<Standing, string> = {
  within: 'within its limits',
  outside: 'outside its limits',
  'too-close': 'too close to its limit to call',
  'not-measured': 'not measured',
  'no-limit': 'measured, but no limit was entered',
  recorded: 'recorded',
};

/** Every gauge and tool the counting measurements rest on, each once in each state of its record. */
function gaugesOf(build: Build): readonly CertificateGauge[] {
  const found = new Map<string, CertificateGauge>();
  for (const { how, at } of build.assemblies.flatMap(({ measurements }) => measurements)) {
    const gauge = how.kind === 'seen' ? undefined : how.gauge;
    if (gauge === undefined) continue;
    const key = JSON.stringify(gauge);
    if (!found.has(key))
      found.set(key, { gauge, typed: how.kind === 'typed', calibration: calibrationOn(gauge, at.slice(0, 10)) });
  }
  return [...found.values()];
}
