import { z } from 'zod';
import { idSchema } from '../../basics/recorded.ts';
import type { Assembly, Build } from '../records/build.ts';
import { type Phase, phases } from '../records/checkIds.ts';
import { type CheckState, markJudgement } from '../checks/readiness.ts';
import type { Standing } from '../checks/judge.ts';

export const standings = [
  'within',
  'outside',
  'too-close',
  'not-measured',
  'no-limit',
  'recorded',
] as const satisfies readonly Standing[];

/** One thing that keeps a certificate incomplete, as a code: an edition finds the words for it. */
export const missingSchema = z.discriminatedUnion('what', [
  z.strictObject({ what: z.literal('description') }),
  z.strictObject({ what: z.literal('limits') }),
  z.strictObject({ what: z.literal('assembly'), phase: z.enum(phases) }),
  /** A check of this assembly (its notebook entry) that is not settled. */
  z.strictObject({ what: z.literal('check'), assembly: idSchema, check: idSchema, standing: z.enum(standings) }),
  z.strictObject({ what: z.literal('apart-again') }),
  z.strictObject({ what: z.literal('mark-accepted') }),
]);
export type Missing = z.infer<typeof missingSchema>;

/** An assembly with where each of its checks stands. */
export interface Assessed {
  readonly assembly: Assembly;
  readonly states: readonly CheckState[];
}

/**
 * What keeps a certificate incomplete: no description or limits, no final assembly that is ready to close, a
 * required reading that was neither taken nor overridden, a mark that was not accepted. Earlier trials may be
 * left unfinished: they were taken apart again.
 */
export function whatIsMissing(build: Build, assessed: readonly Assessed[]): readonly Missing[] {
  const missing: Missing[] = [];
  if (build.makeUp === undefined) missing.push({ what: 'description' });
  if (build.specSheet === undefined) missing.push({ what: 'limits' });
  for (const phase of phases) {
    const last = assessed.findLast(({ assembly }) => assembly.phase === phase);
    if (last === undefined) missing.push({ what: 'assembly', phase });
    else missing.push(...unsettled(last));
  }
  const final = build.assemblies.findLast((assembly) => assembly.phase === 'final');
  if (final !== undefined && final !== build.assemblies.at(-1)) missing.push({ what: 'apart-again' });
  if (final !== undefined && markJudgement(final) !== 'accepted') missing.push({ what: 'mark-accepted' });
  return missing;
}

const unsettled = ({ assembly, states }: Assessed): readonly Missing[] =>
  states
    .filter((state) => state.override === undefined && isUnsettled(assembly.phase, state))
    .map(({ check, standing }) => ({ what: 'check', assembly: assembly.id, check: check.id, standing }));

/**
 * Whether a check that nobody overrode keeps a certificate incomplete. Before the first trial, a reading outside its limits
 * is what the axle came with, and only a missing one is missing.
 */
export function isUnsettled(phase: Phase, { standing, needed }: Pick<CheckState, 'standing' | 'needed'>): boolean {
  const notTaken = needed === 'required' && standing === 'not-measured';
  const isBefore = phase === 'as-found' || phase === 'stripping';
  return notTaken || (!isBefore && (standing === 'outside' || standing === 'too-close'));
}
