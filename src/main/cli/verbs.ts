import type { Verb } from './verb.ts';

/**
 * The verbs of the command line, in the order of its help. Each is loaded when it is called: a line that asks for one
 * figure does not wait for databases and simulators.
 */
const verbs: Readonly<Record<string, () => Promise<Verb>>> = {
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
  schema: async () => (await import('./verbs/schema.ts')).schema,
  demo: async () => (await import('./verbs/demo.ts')).demo,
  open: async () => (await import('./verbs/open.ts')).open,
};

/** The verb of this name; every verb where there is none of this name, for the help. */
export async function verbsFor(name: string | undefined): Promise<readonly Verb[]> {
  const load = name !== undefined && Object.hasOwn(verbs, name) ? verbs[name] : undefined;
  return load === undefined ? Promise.all(Object.values(verbs).map((each) => each())) : [await load()];
}
