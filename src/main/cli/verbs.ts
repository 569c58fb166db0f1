import { builds } from './verbs/builds.ts';
import { demo } from './verbs/demo.ts';
import { exportBuild } from './verbs/export.ts';
import { learn } from './verbs/learn.ts';
import { measure } from './verbs/measure.ts';
import { open } from './verbs/open.ts';
import { plan } from './verbs/plan.ts';
import { ports } from './verbs/ports.ts';
import { predict } from './verbs/predict.ts';
import { readPattern } from './verbs/readPattern.ts';
import { simulate } from './verbs/simulate.ts';
import { verify } from './verbs/verify.ts';
import { watch } from './verbs/watch.ts';
import type { Verb } from './verb.ts';

/** The verbs of the command line, in the order of its help. */
export const verbs: readonly Verb[] = [
  measure,
  predict,
  plan,
  readPattern,
  ports,
  learn,
  watch,
  simulate,
  builds,
  exportBuild,
  verify,
  demo,
  open,
];
