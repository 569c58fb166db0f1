import { assemblyName, type Build } from '../../../shared/job/records/build.ts';
import { isDescribed, readinessOf } from '../../../shared/job/checks/readiness.ts';

/** What a certificate issued now would have to call missing, as a sentence each. */
export function missingFor(build: Build): readonly string[] {
  if (!isDescribed(build)) return ['How the axle is made.'];
  const final = build.assemblies.findLast((assembly) => assembly.phase === 'final');
  const phases = [
    ...(build.specSheet === undefined ? ['The limits.'] : []),
    ...(final === undefined ? ['The final assembly.'] : []),
  ];
  const steps =
    final === undefined
      ? []
      : readinessOf(build, final).inTheWay.map(
          (state) => `${assemblyName(final)}: ${state.check.title.toLowerCase()}.`,
        );
  return [...phases, ...steps];
}
