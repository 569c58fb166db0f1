import type { VerbName } from './told.ts';
import type { Verb } from './verb.ts';

/**
 * What each verb does, loaded when it is called: a line that asks for one figure does not wait for databases and simulators.
 * What the help says of them stands in told.ts.
 */
const verbs: Readonly<Record<VerbName, () => Promise<Verb>>> = {
  measure: async () => (await import('./verbs/measure.ts')).measure,
  predict: async () => (await import('./verbs/predict.ts')).predict,
  plan: async () => (await import('./verbs/plan.ts')).plan,
  'read-pattern': async () => (await import('./verbs/readPattern.ts')).readPattern,
  ports: async () => (await import('./verbs/ports.ts')).ports,
  learn: async () => (await import('./verbs/learn.ts')).learn,
  watch: async () => (await import('./verbs/watch.ts')).watch,
  simulate: async () => (await import('./verbs/simulate.ts')).simulate,
  builds: async () => (await import('./verbs/builds.ts')).builds,
  export: async () => (await import('./verbs/export.ts')).exportBuild,
  verify: async () => (await import('./verbs/verify.ts')).verify,
  import: async () => (await import('./verbs/import.ts')).importBuild,
  backup: async () => (await import('./verbs/backup.ts')).backup,
  restore: async () => (await import('./verbs/restore.ts')).restore,
  archive: async () => (await import('./verbs/archive.ts')).archive,
  schema: async () => (await import('./verbs/schema.ts')).schema,
  demo: async () => (await import('./verbs/demo.ts')).demo,
  open: async () => (await import('./verbs/open.ts')).open,
};

const isVerb = (name: string): name is VerbName => Object.hasOwn(verbs, name);

/** The verb of this name; none where there is none of this name. */
export const verbsFor = async (name: string | undefined): Promise<readonly Verb[]> =>
  name !== undefined && isVerb(name) ? [await verbs[name]()] : [];

/** Every verb, loaded. */
export const allVerbs = (): Promise<readonly Verb[]> => Promise.all(Object.values(verbs).map((each) => each()));
