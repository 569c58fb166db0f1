import type { Readiness } from '../../../shared/setup/readiness.ts';

/** The gate in one line: "Ready to paint", or how much stands in the way of it. */
export function gateTitle(readiness: Readiness): string {
  const gate = { 'ready-to-paint': 'Ready to paint', 'ready-to-close': 'Ready to close' };
  const count = readiness.inTheWay.length;
  if (readiness.gate === undefined)
    return readiness.ready ? 'As found is complete' : `${count} still to be read before it is loosened`;
  if (readiness.ready) return gate[readiness.gate];
  const what = readiness.gate === 'ready-to-paint' ? 'painting' : 'closing';
  return count === 1 ? `One thing stands in the way of ${what}` : `${count} things stand in the way of ${what}`;
}
