import { isDescribed, readinessOf } from '../checks/readiness.ts';
import type { Build } from '../records/build.ts';
import type { Assessed } from './missing.ts';

/** Every assembly of a build with where each of its checks stands; none are asked for before the axle is described. */
export const assessedOf = (build: Build): readonly Assessed[] =>
  build.assemblies.map((assembly) => ({
    assembly,
    states: isDescribed(build) ? readinessOf(build, assembly).states : [],
  }));
