import type { TraceEvent } from '../../shared/presentation/drawing/trace.ts';
import type { CaptureEvent } from '../../shared/job/captures/capture.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** Where something found is marked on the trace, or nothing for what has no place in time and value. */
export function traceEventOf(event: CaptureEvent): TraceEvent | undefined {
  switch (event.kind) {
    case 'rest-found':
      return { kind: 'rest', t: event.t, v: event.level };
    case 'spread-rest':
      return { kind: 'rest', t: event.t, v: event.level };
    case 'station':
      return { kind: 'rest', t: event.t, v: event.value };
    case 'again':
    case 'all-done':
    case 'gap':
    case 'landed':
    case 'let-go':
    case 'lifted':
    case 'nothing-measured':
    case 'pulling':
    case 'rock-counted':
    case 'station-done':
    case 'station-refused':
    case 'taken-anew':
    case 'turn':
      return undefined;
    default:
      throw noCase(event);
  }
}
