import { z } from 'zod';
import { idSchema, instantSchema, nameSchema } from '../basics/recorded.ts';
import { captureSettingsSchema, resultSchema, stretchSchema } from '../job/records/measurement.ts';
import { deedSchema, entrySchema, nutSaid } from '../job/records/notebook.ts';
import { gaugeSeenSchema } from '../job/records/gauge.ts';
import { specSheetSchema } from '../job/records/specSheet.ts';
import { checkIds } from '../job/records/checkIds.ts';
import { soughtSchema, type Which, whiches } from '../job/shop/sought.ts';
import { buildSummarySchema } from '../job/shop/summary.ts';
import { problemSchema, question } from './message.ts';

export type { BuildSummary } from '../job/shop/summary.ts';

const notebookSchema = z.strictObject({ id: idSchema, entries: z.array(entrySchema) });
export type Notebook = z.infer<typeof notebookSchema>;

/** A measurement taken without a build; it can be kept into one later. */
export const looseMeasurementSchema = z.strictObject({
  id: idSchema,
  at: instantSchema,
  gauge: gaugeSeenSchema,
  stretch: stretchSchema,
  settings: captureSettingsSchema,
  result: resultSchema,
  keptIn: idSchema.optional(),
});
export type LooseMeasurement = z.infer<typeof looseMeasurementSchema>;

/** What a technician may write by hand; `measured` from a gauge comes only through `measurements.record`. */
const writableSchema = deedSchema.refine(
  (deed) =>
    deed.kind !== 'started' &&
    deed.kind !== 'certified' &&
    deed.kind !== 'photographed' &&
    deed.kind !== 'sleeve-step' &&
    !(deed.kind === 'measured' && deed.how.kind === 'streamed'),
  { error: 'this entry is written by the bench itself' },
);

const inBuild = { build: idSchema, by: nameSchema };

/** So many builds go in one answer; a full one is asked on behind its last. */
export const mostListed = 50;
/** One kept measurement is some hundred times as large as the line of a build. */
export const mostLoose = 100;

/** The id of the last one of the page before; without it the list begins with the newest. */
const behind = { before: idSchema.optional() };

const count = z.int().min(0);
type Counts = Readonly<Record<'all' | Which | 'unread', typeof count>>;

const countsSchema = z.strictObject({
  all: count,
  ...Object.fromEntries(whiches.map((which) => [which, count])),
  unread: count,
} as Counts);
export type BuildCounts = z.infer<typeof countsSchema>;

export const buildQuestions = {
  /** Builds that can be read, the one written in last first, a page at a time; of those sought, where something is. */
  'builds.list': question(
    z.strictObject({ ...soughtSchema.shape, ...behind }),
    z.array(buildSummarySchema).max(mostListed),
  ),
  /** How many builds there are, of each sort, and how many are still to be read after a change of the program. */
  'builds.counts': question(z.strictObject({}), countsSchema),
  /** One build as the list tells it; without it where there is none, or it cannot be read. */
  'builds.summary': question(
    z.strictObject({ build: idSchema }),
    z.strictObject({ summary: buildSummarySchema.optional() }),
  ),
  /** Builds that cannot: damaged, or written by a later version. They are left as they are. */
  'builds.unreadable': question(
    z.strictObject({}),
    z.array(z.strictObject({ id: z.string(), problem: problemSchema })).max(mostListed),
  ),
  'builds.start': question(
    z.strictObject({ title: nameSchema, technician: nameSchema, comebackOf: idSchema.optional() }),
    notebookSchema,
  ),
  'builds.read': question(z.strictObject({ build: idSchema }), notebookSchema),
  'builds.write': question(z.strictObject({ ...inBuild, deed: writableSchema }), notebookSchema),
  'builds.undo': question(z.strictObject(inBuild), notebookSchema),
  'builds.redo': question(z.strictObject(inBuild), notebookSchema),
  /** The bench recomputes the figures from the journal; the renderer sends only where they lie. */
  'measurements.record': question(
    z.strictObject({
      ...inBuild,
      assembly: idSchema,
      check: z.enum(checkIds),
      stretch: stretchSchema,
      settings: captureSettingsSchema,
    }),
    notebookSchema,
  ),
  /** One step of the nut on a crush sleeve: the torque read after it is worked out like a measurement. */
  'measurements.sleeve-step': question(
    z.strictObject({
      ...inBuild,
      assembly: idSchema,
      stretch: stretchSchema,
      settings: captureSettingsSchema,
      ...nutSaid,
    }),
    notebookSchema,
  ),
  'measurements.keep-loose': question(
    z.strictObject({ stretch: stretchSchema, settings: captureSettingsSchema }),
    looseMeasurementSchema,
  ),
  /** Measurements kept without a build, the one taken last first, a page at a time. */
  'measurements.loose': question(z.strictObject(behind), z.array(looseMeasurementSchema).max(mostLoose)),
  'measurements.adopt': question(
    z.strictObject({ ...inBuild, loose: idSchema, assembly: idSchema, check: z.enum(checkIds) }),
    notebookSchema,
  ),
  /** Spec sheets entered before, to pick from. */
  'spec-sheets.list': question(z.strictObject({}), z.array(specSheetSchema)),
} as const;

export const buildTopics = {
  'notebook-changed': z.strictObject({ build: idSchema, summary: buildSummarySchema }),
} as const;
