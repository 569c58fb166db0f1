import { showText, type UnitSystem } from '../../basics/show.ts';
import { isNone } from '../../basics/result.ts';
import type { RingInput, RingRunout, RingStation } from './ringInput.ts';
import { stateWords } from './states.ts';
import { windowWords } from './words.ts';

/** The ring in words, for whoever cannot see it: every station with its number and state, the window, the runout. */
export function ringDescription(input: RingInput): string {
  return [
    `Ring gear with ${input.teeth} teeth, seen from its teeth, stations numbered clockwise.`,
    windowWords(input.limits, input.system),
    ...input.stations.map((station) => stationWords(station, input.system)),
    input.runout === undefined ? '' : runoutWords(input.runout, input.system),
  ]
    .filter((words) => words !== '')
    .join(' ');
}

function stationWords({ number, value_mm, U95_mm, state }: RingStation, system: UnitSystem): string {
  if (isNone(value_mm)) return `Station ${number}: ${stateWords[state]}.`;
  const doubt = U95_mm === undefined ? '' : ` ± ${showText(U95_mm, 'length', system)}`;
  return `Station ${number}: ${showText(value_mm, 'length', system)}${doubt}, ${stateWords[state]}.`;
}

function runoutWords({ tir_mm, highSpot_deg }: RingRunout, system: UnitSystem): string {
  const spot = highSpot_deg === undefined ? '' : `, high spot at ${Math.round(highSpot_deg)}°`;
  return `Runout ${showText(tir_mm, 'length', system)} TIR${spot}.`;
}
