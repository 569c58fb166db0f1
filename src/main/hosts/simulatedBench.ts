import type { Assembled } from '../../../hardware-sim/axle/assembled.ts';
import { sleeveAfterNut } from '../../../hardware-sim/axle/bearings.ts';
import { type DemoAxle, demoAxle } from '../../../hardware-sim/axle/demo.ts';
import { simulatedGauges } from '../../../hardware-sim/gauges/simulated.ts';
import type { Shims } from '../../../hardware-sim/axle/shims.ts';
import { asJpeg, photograph } from '../../../hardware-sim/photos/photograph.ts';
import { plainScene } from '../../../hardware-sim/photos/scene.ts';
import { seeded } from '../../../hardware-sim/seeded.ts';
import { type Hand, steadyHand } from '../../../hardware-sim/hands/hand.ts';
import type { HandAction, SimulatedAssembly, SimulatedPacks } from '../../shared/contract/bench.ts';
import type { Simulation } from '../bench/parts.ts';
import { makeUp, specSheet } from './simulatedAxle.ts';
import { preloadEachSide_mm, readAtTheStand, shimsMeasured } from './simulatedReadings.ts';
import type { HandCues } from '../bench/handCues.ts';

/** A simulation whose parts the demo looks at: the axle's marks, and what the gauges are made of. */
export interface OpenedSimulation extends Simulation {
  readonly axle: DemoAxle;
  /** The axle as it is put together now. */
  assembled(): Assembled;
}

/** One seed, one axle: the scenario of the demo and of `npm start -- --simulate`. */
export const scenarioSeed = 7;

/** How the simulated hand works: as a person does, or as fast as a capture must follow, for the unattended demo. */
interface Pace {
  readonly hand: Hand;
  readonly ringTurns_per_s: number;
  readonly pinion: { readonly turns: number; readonly turns_per_s: number };
  readonly rest_s: number;
}

/** Long enough at each station for the bench to hear that the hand stands still. */
const stationRest_s = 0.45;

/** Thickness of the compound on the simulated teeth: thin and even. */
const film_um = 10;

/** One stand of the camera and one light, so that the same teeth give the same photo. */
const photoSeed = 11;
/** Small enough to be rendered while gauges go on sending, px. */
const photoSize = [1000, 750] as const;

/** A hand that hears nothing gives up after so many rocks. */
const mostRocks = 12;

const fast = steadyHand('fast');
const paces: Readonly<Record<'person' | 'hurried', Pace>> = {
  person: { hand: fast, ringTurns_per_s: 0.3, pinion: { turns: 4, turns_per_s: 1 }, rest_s: 0.4 },
  hurried: {
    // Seven readings in each rest at 100 readings/s: about the fastest that a hand does and a capture has to follow.
    hand: { ...fast, travel_s: 0.04, dwell_s: 0.07, bounce: 0.05, lift: { up_s: 0.1, hangs_s: 0.25, down_s: 0.12 } },
    ringTurns_per_s: 1,
    // A period proves itself only once it was seen two and a half times: nothing here measures the pinion's angle.
    pinion: { turns: 4, turns_per_s: 2 },
    rest_s: 0.2,
  },
};

/**
 * Puts the axle twin on the stand, with an indicator and a torque gauge on lines of their own, and a fast hand.
 * This is the one place where the simulator and the bench meet; they share no code.
 */
export async function openSimulation(
  pace: keyof typeof paces = 'person',
  axle: DemoAxle = demoAxle(scenarioSeed),
): Promise<OpenedSimulation> {
  const { hand, ringTurns_per_s, pinion, rest_s } = paces[pace];
  let assembled = axle.assemble(axle.asFound);
  const gauges = await simulatedGauges({ axle: () => assembled, seed: scenarioSeed, rate_Hz: 100 });

  const move = async (action: HandAction, cues: HandCues): Promise<void> => {
    if (action.on !== undefined) assembled = axle.assemble(assemblyFor(axle, action.on));
    if (action.do === 'rock')
      await gauges.indicator.rock(action.stations, { hand, rocks: mostRocks, enough: cues.stationDone });
    else if (action.do === 'push-case')
      await gauges.indicator.push({ hand, strokes: mostRocks, enough: () => cues.stationDone(0) });
    else if (action.do === 'turn-ring') {
      const surface = action.surface === 'flange' ? 'flange' : 'back-face';
      const speed_rad_s = 2 * Math.PI * ringTurns_per_s;
      const { pedal } = cues;
      await gauges.indicator.turn(
        action.stations === undefined
          ? { surface, speed_rad_s, rest_s, pedal }
          : { surface, speed_rad_s, rest_s: stationRest_s, stations: action.stations, pedal },
      );
    } else
      await gauges.torque.turn({
        drag: action.what,
        turns: pinion.turns,
        speed_rad_s: 2 * Math.PI * pinion.turns_per_s,
        rest_s,
      });
  };
  return {
    axle,
    assembled: () => assembled,
    describes: { makeUp, specSheet },
    links: [gauges.indicator.link, gauges.torque.link],
    move,
    paint: (on) => {
      assembled = axle.assemble(assemblyFor(axle, on));
      const { convex, concave } = assembled.paint(film_um);
      return makeUp.driveFlank === 'convex' ? { drive: convex, coast: concave } : { drive: concave, coast: convex };
    },
    readOff: ({ on, check, before }) => {
      if (check !== 'shims') return readAtTheStand[check];
      const { shims } = assemblyFor(axle, on);
      return shimsMeasured(on.packs_mm === undefined && before !== undefined ? nextShims(on.phase, before) : shims);
    },
    photo: (on, side) => {
      assembled = axle.assemble(assemblyFor(axle, on));
      const { convex, concave } = assembled.painted();
      const flank = (side === 'drive') === (makeUp.driveFlank === 'convex') ? 'convex' : 'concave';
      const random = seeded(photoSeed);
      const rolled = { set: axle.gears, flank, painted: { convex, concave }[flank], film_mm: film_um / 1000 } as const;
      const scene = plainScene(random, rolled, photoSize);
      return asJpeg(photograph(scene, random).photo, scene.quality);
    },
    close: () => gauges.end(),
  };
}

/** What goes in next where the swap card has not said it: the packs of before, in the final assembly with the case's preload. */
function nextShims(phase: SimulatedAssembly['phase'], before: SimulatedPacks): Shims {
  const added = phase === 'final' ? preloadEachSide_mm : 0;
  return {
    head_mm: before.pinionDepth,
    ringSide_mm: before.ringSide + added,
    otherSide_mm: before.oppositeSide + added,
  };
}

/** The twin's assembly for one of a build: the scenario's own, with the packs that were fitted where they are known. */
function assemblyFor(
  axle: DemoAxle,
  { phase, number, bearings, seal, packs_mm, nutTurned_deg }: SimulatedAssembly,
): DemoAxle['asFound'] {
  const scenario = {
    'as-found': axle.asFound,
    stripping: axle.asFound,
    trial: [axle.firstTrial, axle.secondTrial][number - 1] ?? axle.thirdTrial,
    final: axle.final,
  }[phase];
  const shims =
    packs_mm === undefined
      ? scenario.shims
      : { head_mm: packs_mm.pinionDepth, ringSide_mm: packs_mm.ringSide, otherSide_mm: packs_mm.oppositeSide };
  const sleeve = nutTurned_deg === undefined ? {} : { sleeve: sleeveAfterNut(axle.spec.bearings, nutTurned_deg) };
  return { ...scenario, shims, bearings, seal: seal === 'in', ...sleeve };
}
