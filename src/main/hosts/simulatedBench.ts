import type { Assembled } from '../../../hardware-sim/axle/assembled.ts';
import { type DemoAxle, demoAxle } from '../../../hardware-sim/axle/demo.ts';
import { simulatedGauges } from '../../../hardware-sim/gauges/simulated.ts';
import { steadyHand } from '../../../hardware-sim/hands/hand.ts';
import type { HandAction, SimulatedAssembly } from '../../shared/contract/bench.ts';
import type { Simulation } from '../bench/bench.ts';

/** A simulation whose parts the demo looks at: the axle's marks, and what the gauges are made of. */
export interface OpenedSimulation extends Simulation {
  readonly axle: DemoAxle;
  /** The axle as it is put together now. */
  assembled(): Assembled;
}

/** One seed, one axle: the scenario of the demo and of `npm start -- --simulate`. */
export const scenarioSeed = 7;

/** Rocks for each station: enough for a result that repeats, with one to spare. */
const rocksEach = 5;

/**
 * Puts the axle twin on the stand, with an indicator and a torque gauge on lines of their own, and a fast hand.
 * This is the one place where the simulator and the bench meet; they share no code.
 */
export async function openSimulation(seed = scenarioSeed): Promise<OpenedSimulation> {
  const axle = demoAxle(seed);
  let assembled = axle.assemble(axle.asFound);
  const gauges = await simulatedGauges({ axle: () => assembled, seed, rate_Hz: 100 });

  const move = async (action: HandAction): Promise<void> => {
    if (action.on !== undefined) assembled = axle.assemble(assemblyFor(axle, action.on));
    if (action.do === 'rock')
      await gauges.indicator.rock(action.stations, { hand: steadyHand('fast'), rocks: rocksEach });
    else if (action.do === 'turn-ring')
      await gauges.indicator.turn({ surface: action.surface === 'flange' ? 'flange' : 'back-face' });
    else await gauges.torque.turn({ drag: action.what });
  };
  return {
    axle,
    assembled: () => assembled,
    links: [gauges.indicator.link, gauges.torque.link],
    move,
    close: () => gauges.end(),
  };
}

/** The twin's assembly for one of a build: the scenario's own, with the packs that were fitted where they are known. */
function assemblyFor(
  axle: DemoAxle,
  { phase, number, bearings, seal, packs_mm }: SimulatedAssembly,
): DemoAxle['asFound'] {
  const scenario = {
    'as-found': axle.asFound,
    trial: number === 1 ? axle.firstTrial : axle.secondTrial,
    final: axle.final,
  }[phase];
  const shims =
    packs_mm === undefined
      ? scenario.shims
      : { head_mm: packs_mm.pinionDepth, ringSide_mm: packs_mm.ringSide, otherSide_mm: packs_mm.oppositeSide };
  return { ...scenario, shims, bearings, seal: seal === 'in' };
}
