import type { CheckId } from '../../job/records/checkIds.ts';
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
import type { Phase } from '../../job/records/checkIds.ts';
import { limitsChanged, type LimitsChanged } from '../../job/checks/limitChanges.ts';
import type { LimitJudged, Standing } from '../../job/checks/judge.ts';
import type { CheckState } from '../../job/checks/readiness.ts';
import { assessedOf } from '../../job/certifying/assessed.ts';
import { entriesCertified } from '../../job/certifying/certificateData.ts';
import { type Assessed, whatIsMissing } from '../../job/certifying/missing.ts';
import { missingWords } from './missingWords.ts';
import { cautions, statement } from './words.ts';
import type { StoredPhoto } from '../../job/records/photo.ts';

export interface CertificateCheck {
  readonly check: CheckId;
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

export interface CertificatePhoto extends StoredPhoto {
  readonly at: string;
  readonly assembly: string;
}

/** What a certificate says, in the words of this edition. The pages draw it; what is hashed has no words (certificateData.ts). */
export interface CertificateContent {
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
  /** Photos of painted teeth, oldest first, each with the assembly it was taken of. */
  readonly photos: readonly CertificatePhoto[];
  /** The whole notebook, struck entries included, so that anyone can work all this out again. */
  readonly notebook: readonly Entry[];
}

/** Reads a notebook into what its certificate says. A certificate is a function of the record and of nothing else. */
export function certificateContent(notebook: Notebook): CertificateContent {
  const entries = [...entriesCertified(notebook)];
  const build = readNotebook(notebook.id, entries);
  const assessed = assessedOf(build);
  const missing = whatIsMissing(build, assessed).map((one) => missingWords(one, assessed));
  const limitChanges = limitsChanged(build);
  return {
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
    assemblies: assessed.map(assemblyContent),
    gauges: gaugesOf(build),
    photos: photosOf(build),
    notebook: entries,
  };
}

function assemblyContent({ assembly, states }: Assessed): CertificateAssembly {
  const { id, phase, at, bearings, seal, sleeve } = assembly;
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

const photosOf = ({ assemblies }: Build): readonly CertificatePhoto[] =>
  assemblies.flatMap((assembly) =>
    assembly.photos.map(({ sha256, width, height, at }) => ({
      sha256,
      width,
      height,
      at,
      assembly: assemblyName(assembly),
    })),
  );

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
