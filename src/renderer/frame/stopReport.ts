import type { Route } from '../stores/route.ts';
import type { Stopped } from './Guard.tsx';

interface StopReport {
  readonly stopped: Stopped;
  readonly route: Route;
  readonly version: string;
  /** When it happened, as ISO 8601. */
  readonly at: string;
}

/** What whoever mends the program needs to know about a screen that stopped: no readings, no names of people. */
export function stopReport({ stopped: { error, inside }, route, version, at }: StopReport): string {
  return [
    `Axlewright ${version}, ${at}`,
    `Screen: ${screenOf(route)}`,
    `Fault: ${faultWords(error)}`,
    ...(error instanceof Error && error.stack !== undefined ? ['', error.stack] : []),
    ...(inside === '' ? [] : ['', 'Inside:', inside]),
  ].join('\n');
}

/** The one sentence that the fault itself has to say. */
export const faultWords = (error: unknown): string =>
  error instanceof Error ? `${error.name}: ${error.message}` : String(error);

/** Which screen, without the numbers of the build and its assemblies: they would say nothing elsewhere. */
const screenOf = (route: Route): string => ('check' in route ? `${route.at}, ${route.check}` : route.at);
