import { z } from 'zod';
import { idSchema, instantSchema, nameSchema, wordsSchema } from '../../../shared/basics/recorded.ts';
import { makeUpSchema } from '../../../shared/axle/makeUp.ts';
import { judgementAgainst } from '../../../shared/job/certifying/agrees.ts';
import type { CheckHashed, Judged } from '../../../shared/job/certifying/certificateData.ts';
import { checkIds } from '../../../shared/job/records/checkIds.ts';
import { gaugeSeenSchema } from '../../../shared/job/records/gauge.ts';
import { howSchema, resultSchema } from '../../../shared/job/records/measurement.ts';
import { assemblyName, type Build, readNotebook } from '../../../shared/job/records/build.ts';
import { entrySchema, noteTopics } from '../../../shared/job/records/notebook.ts';
import { limitedQuantities, limitSchema, rules, specSheetSchema } from '../../../shared/job/records/specSheet.ts';
import { canonicalJson } from '../hash.ts';

/**
 * The first edition (0.1.0): its data carry the words of the pages, no readings and no signature. Frozen: it is
 * read as it was written for as long as there is a certificate of it. Its words are vouched for by the hash its PDF bears;
 * what is checked here is that its figures and verdicts follow from the notebook inside.
 */
const standing = z.enum(['within', 'outside', 'too-close', 'not-measured', 'no-limit', 'recorded']);
const number = z.union([z.number(), z.strictObject({ none: z.string().min(1) })]);

const limitJudged = z.strictObject({
  quantity: z.enum(Object.keys(limitedQuantities) as [keyof typeof limitedQuantities]),
  limit: limitSchema,
  value: number,
  U95: z.number(),
  verdict: z.enum(['within', 'outside', 'too-close', 'not-measured']),
  closeCall: z.boolean(),
  beyond: z.number().optional(),
  settle: z.enum(['finer-gauge', 'more-repeats', 'truer-stem']).optional(),
  chance: z.number().optional(),
  why: z.string().optional(),
  otherBasis: z.boolean().optional(),
});

const measurement = z.strictObject({
  id: idSchema,
  at: instantSchema,
  by: nameSchema,
  check: z.enum(checkIds),
  how: howSchema,
  result: resultSchema,
});

const check = z.strictObject({
  check: idSchema,
  title: z.string().min(1),
  needed: z.enum(['required', 'optional']),
  standing,
  closeCall: z.boolean(),
  why: z.string().optional(),
  limits: z.array(limitJudged),
  measurement: measurement.optional(),
  carriedFrom: z.string().optional(),
  earlier: z.int().min(0),
  override: z
    .strictObject({ check: z.enum(checkIds), reason: wordsSchema, at: instantSchema, by: nameSchema })
    .optional(),
});

const assembly = z.strictObject({
  id: idSchema,
  name: z.string().min(1),
  phase: z.enum(['as-found', 'stripping', 'trial', 'final']),
  at: instantSchema,
  bearings: z.enum(['set-up', 'new', 'used']),
  seal: z.enum(['in', 'out']),
  sleeve: z.boolean(),
  checks: z.array(check),
});

const edition1Schema = z.strictObject({
  kind: z.literal('axlewright-certificate'),
  version: z.literal(1),
  build: z.strictObject({
    id: idSchema,
    title: nameSchema,
    technician: nameSchema,
    startedAt: instantSchema,
    comebackOf: idSchema.optional(),
  }),
  asOf: instantSchema,
  complete: z.boolean(),
  missing: z.array(z.string().min(1)),
  statement: z.string().min(1),
  cautions: z.array(z.string().min(1)),
  rule: z.enum(rules),
  makeUp: makeUpSchema.optional(),
  specSheet: specSheetSchema.optional(),
  notes: z.array(z.strictObject({ topic: z.enum(noteTopics), text: wordsSchema, at: instantSchema, by: nameSchema })),
  assemblies: z.array(assembly),
  gauges: z.array(
    z.strictObject({
      gauge: gaugeSeenSchema,
      typed: z.boolean(),
      calibration: z.enum(['in-date', 'past', 'not-stated']),
    }),
  ),
  notebook: z.array(entrySchema).min(1),
});
type Edition1 = z.infer<typeof edition1Schema>;
type Check1 = z.infer<typeof check>;

/** What a certificate of the first edition says, or where it contradicts itself. */
export interface Told1 {
  readonly build: string;
  readonly title: string;
  readonly technician: string;
  readonly asOf: string;
  readonly complete: boolean;
  readonly missing: readonly string[];
}

export function readEdition1(given: unknown): { readonly told: Told1 } | { readonly wrong: string } {
  const parsed = edition1Schema.safeParse(given);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    return { wrong: `${issue?.path.join('.') ?? ''} ${issue?.message ?? 'is not as it was written'}`.trim() };
  }
  const wrong = against(parsed.data, given);
  if (wrong !== undefined) return { wrong };
  const { build, asOf, complete, missing } = parsed.data;
  return { told: { build: build.id, title: build.title, technician: build.technician, asOf, complete, missing } };
}

function against(said: Edition1, given: unknown): string | undefined {
  // A schema that trims or drops would let something through that is not in the file.
  if (canonicalJson(said) !== canonicalJson(given)) return 'it has members that do not belong to it';
  const { build, asOf, notebook } = said;
  return (
    judgementAgainst({ build: build.id, asOf, notebook, judged: judgedOf1(said) }) ??
    missingAgainst(said) ??
    copiesAgainst(said, readNotebook(build.id, notebook))
  );
}

/** The same judgement without its words, as later editions keep it. */
function judgedOf1({ assemblies }: Edition1): Pick<Judged, 'assemblies'> {
  const counted = new Map<string, number>();
  const ids = new Map(assemblies.map(({ id, name }) => [name, id]));
  return {
    assemblies: assemblies.map(({ id, phase, checks }) => {
      const number = (counted.get(phase) ?? 0) + 1;
      counted.set(phase, number);
      return { id, phase, number, checks: checks.map((one) => checkOf1(one, ids)) };
    }),
  };
}

function checkOf1(one: Check1, ids: ReadonlyMap<string, string>): CheckHashed {
  const { check: id, needed, standing: stands, closeCall, earlier, carriedFrom } = one;
  return {
    check: id,
    needed,
    standing: stands,
    closeCall,
    limits: one.limits.map(({ quantity: _quantity, why: _why, ...codes }) => codes),
    ...(one.measurement === undefined ? {} : { measurement: one.measurement.id }),
    ...(carriedFrom === undefined ? {} : { carriedFrom: ids.get(carriedFrom) ?? carriedFrom }),
    earlier,
    overridden: one.override !== undefined,
  };
}

/** What is missing is said in sentences, one for every check that the last assembly of a phase leaves open. */
function missingAgainst({ complete, missing, assemblies }: Edition1): string | undefined {
  if (complete !== (missing.length === 0)) return `complete says ${complete}, and ${missing.length} things are missing`;
  const lasts = new Map(assemblies.map((one) => [one.phase, one]));
  const open = [...lasts.values()].flatMap(({ name, phase, checks }) =>
    checks
      .filter((one) => one.override === undefined && isOpen(phase, one))
      .map(({ title }) => `${name}: ${title.toLowerCase()} – `),
  );
  const silent = open.find((begins) => !missing.some((sentence) => sentence.startsWith(begins)));
  return silent === undefined ? undefined : `what is missing does not name “${silent.slice(0, -3)}”`;
}

function isOpen(phase: string, one: Pick<Check1, 'standing' | 'needed'>): boolean {
  const notTaken = one.needed === 'required' && one.standing === 'not-measured';
  const isBefore = phase === 'as-found' || phase === 'stripping';
  return notTaken || (!isBefore && (one.standing === 'outside' || one.standing === 'too-close'));
}

/** What it repeats from its notebook must be what stands there. */
function copiesAgainst(said: Edition1, build: Build): string | undefined {
  const pairs: readonly (readonly [string, unknown, unknown])[] = [
    ['build.title', said.build.title, build.title],
    ['build.technician', said.build.technician, build.technician],
    ['build.startedAt', said.build.startedAt, build.startedAt],
    ['build.comebackOf', said.build.comebackOf, build.comebackOf],
    ['makeUp', said.makeUp, build.makeUp],
    ['specSheet', said.specSheet, build.specSheet],
    ['rule', said.rule, build.specSheet?.rule ?? 'simple'],
    ['notes', said.notes, build.notes],
    ...said.assemblies.flatMap((one, index) => assemblyPairs(one, build, index)),
    ...said.gauges.map((one, index) => [`gauges.${index}`, true, isUsed(one.gauge, build)] as const),
  ];
  const wrong = pairs.find(([, is, should]) => text(is) !== text(should));
  return wrong === undefined ? undefined : `${wrong[0]} is not what its notebook gives`;
}

const text = (value: unknown): string => (value === undefined ? '' : canonicalJson(value));

function assemblyPairs(said: Edition1['assemblies'][number], build: Build, index: number) {
  const own = build.assemblies[index];
  const named = `assemblies.${index}`;
  const all = build.assemblies.flatMap(({ measurements }) => measurements);
  return [
    [`${named}.name`, said.name, own === undefined ? '' : assemblyName(own)],
    [`${named}.at`, said.at, own?.at],
    [`${named}.bearings`, said.bearings, own?.bearings],
    [`${named}.seal`, said.seal, own?.seal],
    [`${named}.sleeve`, said.sleeve, own?.sleeve],
    ...said.checks.flatMap((one) => [
      [`${named}.${one.check}.measurement`, one.measurement, all.find(({ id }) => id === one.measurement?.id)] as const,
      [
        `${named}.${one.check}.override`,
        one.override,
        own?.overrides.findLast((override) => override.check === one.check),
      ] as const,
    ]),
  ] as const;
}

const isUsed = (gauge: unknown, build: Build): boolean =>
  build.assemblies.some(({ measurements }) =>
    measurements.some(({ how }) => how.kind !== 'seen' && how.gauge !== undefined && text(how.gauge) === text(gauge)),
  );
