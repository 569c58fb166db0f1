import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { DeedOf } from '../../../../shared/job/records/notebook.ts';
import type { Phase } from '../../../../shared/job/records/checkIds.ts';

type AssemblySetUp = DeedOf<'assembled'>['assembly'];

/** How an assembly of this phase is usually put together (common practice); every part of it can be changed. */
export function usualAssembly(phase: Phase, makeUp: MakeUp | undefined): AssemblySetUp {
  if (phase === 'as-found' || phase === 'stripping') return { phase, bearings: 'used', seal: 'in', sleeve: true };
  if (phase === 'final') return { phase, bearings: 'new', seal: 'in', sleeve: true };
  const onFinal = makeUp?.trialBearings === 'final';
  return { phase, bearings: onFinal ? 'new' : 'set-up', seal: 'out', sleeve: onFinal };
}
