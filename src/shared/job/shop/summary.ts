import { z } from 'zod';
import { idSchema, instantSchema, nameSchema, wordsSchema } from '../../basics/recorded.ts';
import { assemblyName, type Build, currentAssembly, latest } from '../records/build.ts';
import { checkIds } from '../records/checkIds.ts';
import { type Entry, layings } from '../records/notebook.ts';
import { type Next, nextStep } from '../checks/readiness.ts';

/** How far a build has come; `certified` where nothing was read since its certificate. */
export const stages = ['begun', 'as-found', 'trials', 'final', 'certified'] as const;
export type Stage = (typeof stages)[number];

const nextDos = [
  'describe-axle',
  'enter-limits',
  'open-as-found',
  'open-stripping',
  'open-trial',
  'open-final',
  'look-at-plan',
  'issue-certificate',
  'road-test',
  'comeback',
  'next-axle',
  'swap',
  'check',
  'settle',
] as const satisfies readonly Next['do'][];

/** A build in one line of the list: what the shop needs to know of it without opening it. */
export const buildSummarySchema = z.strictObject({
  id: idSchema,
  title: nameSchema,
  technician: nameSchema,
  startedAt: instantSchema,
  lastEntryAt: instantSchema,
  /** "As found", "Trial 2", … or empty while nothing has been assembled. */
  standsAt: z.string(),
  lies: z.enum(layings),
  stage: z.enum(stages),
  /** What comes next, and for a check which one. */
  next: z.strictObject({ do: z.enum(nextDos), check: z.enum(checkIds).optional() }),
  trials: z.int().min(0),
  /** Changes made from the first trial until the mark was accepted; absent while it is not. */
  changes: z.int().min(0).optional(),
  certified: z.strictObject({ at: instantSchema, complete: z.boolean() }).optional(),
  comebackOf: idSchema.optional(),
  /** What the shop calls this axle, who it belongs to, its number plate and the numbers of its set, each as typed last. */
  axle: nameSchema.optional(),
  customer: wordsSchema.optional(),
  plate: wordsSchema.optional(),
  set: z.strictObject({ pinion: nameSchema, ringGear: nameSchema }).optional(),
});
export type BuildSummary = z.infer<typeof buildSummarySchema>;

/** A build in one line. @param entries its notebook, whose last entry tells when it was worked on. */
export function summaryOf(build: Build, entries: readonly Entry[]): BuildSummary {
  const assembly = currentAssembly(build);
  const next = nextStep(build);
  const check = next.do === 'check' ? next.check.id : next.do === 'settle' ? next.state.check.id : undefined;
  const { id, title, technician, startedAt, lies } = build;
  return present({
    id,
    title,
    technician,
    startedAt,
    lastEntryAt: entries.at(-1)?.at ?? startedAt,
    standsAt: assembly === undefined ? '' : assemblyName(assembly),
    lies,
    stage: stageOf(build, next),
    next: present({ do: next.do, check }),
    trials: build.assemblies.filter(({ phase }) => phase === 'trial').length,
    changes: changesUntilRight(build),
    certified: certifiedIn(build),
    comebackOf: build.comebackOf,
    axle: build.makeUp?.axleName,
    customer: lastNote(build, 'customer'),
    plate: lastNote(build, 'plate'),
    set: setNumbers(build),
  });
}

/** The object without what is undefined: a record is compared with what its JSON gives back. */
const present = <T extends object>(all: T): T =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as T;

const afterCertificate: ReadonlySet<Next['do']> = new Set(['road-test', 'comeback', 'next-axle']);

function stageOf(build: Build, next: Next): Stage {
  const assembly = currentAssembly(build);
  if (build.certificates.length > 0 && afterCertificate.has(next.do)) return 'certified';
  if (assembly === undefined) return 'begun';
  return ({ 'as-found': 'as-found', stripping: 'as-found', trial: 'trials', final: 'final' } as const)[assembly.phase];
}

/** Every trial after the first one is a change; counted where the last mark read was accepted. */
function changesUntilRight({ assemblies }: Build): number | undefined {
  const run = assemblies.filter(({ phase }) => phase === 'trial' || phase === 'final');
  const marked = run.findLast((assembly) => latest(assembly, 'mark') !== undefined);
  const mark = marked === undefined ? undefined : latest(marked, 'mark')?.result;
  if (mark?.kind !== 'mark' || mark.judgement !== 'accepted') return undefined;
  const trials = run.filter(({ phase }) => phase === 'trial').length;
  return trials === 0 ? undefined : trials - 1;
}

function certifiedIn({ certificates }: Build): BuildSummary['certified'] {
  const last = certificates.at(-1);
  return last === undefined ? undefined : { at: last.at, complete: last.complete };
}

const lastNote = ({ notes }: Build, topic: 'customer' | 'plate'): string | undefined =>
  notes.findLast((note) => note.topic === topic)?.text;

function setNumbers({ assemblies }: Build): BuildSummary['set'] {
  const results = assemblies.flatMap(({ measurements }) => measurements.map(({ result }) => result));
  const read = results.findLast((result) => result.kind === 'set-numbers');
  return read === undefined ? undefined : { pinion: read.pinion, ringGear: read.ringGear };
}
