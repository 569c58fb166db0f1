import type { Assembly } from '../../../../shared/job/records/build.ts';
import type { Phase } from '../../../../shared/job/records/checkIds.ts';
import type { Readiness } from '../../../../shared/job/checks/readiness.ts';
import type { Shape } from '../../../../shared/presentation/words/standing.ts';
import { markResultOf } from '../../checks/mark/draft.ts';

/** Where an assembly stands, in one line: its gate, and once the teeth of a trial were painted what the mark said. */
export function standOf(
  assembly: Assembly,
  readiness: Readiness,
  past = false,
): { readonly title: string; readonly shape: Shape } {
  const mark = readiness.gate === 'ready-to-paint' && readiness.ready ? markResultOf(assembly) : undefined;
  if (mark !== undefined) return judged[mark.judgement];
  const title = past ? pastGateTitle(readiness) : gateTitle(assembly.phase, readiness);
  if (!readiness.ready) return { title, shape: 'not-measured' };
  // What was only recorded has no gate to pass: its full disc would say that all of it lies within.
  const passed = readiness.gate === undefined ? 'recorded' : 'within';
  return overridden(readiness) === 0
    ? { title, shape: passed }
    : { title: `${title}, ${overridden(readiness)} overridden`, shape: 'overridden' };
}

const overridden = ({ states }: Readiness): number => states.filter(({ override }) => override !== undefined).length;

const judged = {
  accepted: { title: 'The mark is accepted', shape: 'within' },
  change: { title: 'The mark asks for a change', shape: 'outside' },
  recorded: { title: 'The mark is recorded', shape: 'recorded' },
} as const;

/** The gate of an assembly that was taken apart since: nothing stands in its way any more. */
function pastGateTitle(readiness: Readiness): string {
  const count = readiness.inTheWay.length;
  if (count > 0) return count === 1 ? 'One thing was not done' : `${count} things were not done`;
  if (readiness.gate === undefined) return 'Recorded';
  return readiness.gate === 'ready-to-paint' ? 'Was ready to paint' : 'Was ready to close';
}

/** The gate in one line: "Ready to paint", or how much stands in the way of it. */
export function gateTitle(phase: Phase, readiness: Readiness): string {
  const gate = { 'ready-to-paint': 'Ready to paint', 'ready-to-close': 'Ready to close' };
  const count = readiness.inTheWay.length;
  if (phase === 'as-found')
    return readiness.ready ? 'As found is complete' : `${count} still to be read before it is loosened`;
  if (phase === 'stripping')
    return readiness.ready ? 'It is apart, and all of it recorded' : `${count} still to be read as it comes apart`;
  if (readiness.gate === undefined) return '';
  if (readiness.ready) return gate[readiness.gate];
  const what = readiness.gate === 'ready-to-paint' ? 'painting' : 'closing';
  return count === 1 ? `One thing stands in the way of ${what}` : `${count} things stand in the way of ${what}`;
}
