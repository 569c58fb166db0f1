import type { Random } from '../seeded.ts';
import type { Hand } from './hand.ts';
import { hold, move, struck, type Doing, type Stretch } from './motion.ts';
import { spoiler, type Spoil } from './spoil.ts';

/** One station as it stands under the indicator. Places are of the stem, from the free end of its travel, mm. */
export interface StationSetup {
  /** Movement of the gear between its stops, without any force: the gears' own clearance at the stem. */
  readonly backlash_mm: number;
  /** Where the lower stop holds the stem: the preload this tooth happens to give it. */
  readonly lowStop_mm: number;
  readonly rocks: number;
  readonly firstStop: 'low' | 'high';
  /** Where the gear lies at first between its stops, 0…1, and for how long. */
  readonly liesAt: number;
  readonly lies_s: number;
  /** Goes back to the first stop after the last rock, so that a rest remains that belongs to no rock. */
  readonly endsBack: boolean;
  /** No rest is shorter than this, whatever the hand's pace: the gauge must get its readings. */
  readonly leastRest_s: number;
  /** Asked before each rock: a hand that hears that the station is done stops there. Then `rocks` is only the most. */
  readonly enough?: () => boolean;
}

type Stop = 'low' | 'high';
const other = (stop: Stop): Stop => (stop === 'low' ? 'high' : 'low');
const restOf = (stop: Stop): Doing => (stop === 'low' ? 'rest-low' : 'rest-high');

/** A stroke to the next stop, which now and then stands still for a moment on the way: a false rest that is no stop. */
function* stroke(from: number, to: number, hand: Hand, random: Random): Generator<Stretch> {
  const seconds = hand.travel_s * uneven(hand, random);
  const shape = hand.bounce > 0 ? struck : undefined;
  if (random.next() >= hand.hesitates) {
    yield move('moving', seconds, from, to, shape);
    return;
  }
  const stalls = from + (to - from) * random.uniform(0.2, 0.8);
  yield move('moving', seconds / 2, from, stalls);
  yield hold('hesitating', hand.hesitation_s * uneven(hand, random), stalls);
  yield move('moving', seconds / 2, stalls, to, shape);
}

/** The tooth springs back from the stop, each time a third as far and for less long. */
function* rebounds(stop: number, inward: number, backlash_mm: number, hand: Hand): Generator<Stretch> {
  let height = hand.bounce * backlash_mm;
  let seconds = hand.bounce_s;
  while (height > 0.0005) {
    const rise = inward * height;
    const lasts = seconds;
    yield { doing: 'bouncing', seconds, at: (t_s) => stop + rise * Math.sin((Math.PI * t_s) / lasts) };
    height /= 3;
    seconds /= 1.7;
  }
}

const uneven = (hand: Hand, random: Random): number => 1 + random.uniform(-hand.unevenness, hand.unevenness);

const restLength = (setup: StationSetup, hand: Hand, random: Random): number =>
  Math.max(hand.dwell_s * uneven(hand, random), setup.leastRest_s);

/**
 * Rocks the gear at one station: it lies somewhere, is pressed to a stop, rests, is rocked to the other, rests, and so on.
 * The last stretch leaves the stem at the last rest.
 */
export function* rocking(setup: StationSetup, hand: Hand, random: Random, spoil?: Spoil): Generator<Stretch> {
  const spoils = spoiler(spoil, random);
  let place = setup.lowStop_mm + setup.liesAt * setup.backlash_mm;
  if (setup.lies_s > 0) yield hold('between', setup.lies_s, place);
  const rests = setup.rocks * 2 + (setup.endsBack ? 1 : 0);
  for (let rest = 0; rest < rests; rest += 1) {
    if (rest % 2 === 0 && setup.enough?.() === true) return;
    const stop = rest % 2 === 0 ? setup.firstStop : other(setup.firstStop);
    const rock = Math.floor(rest / 2);
    const press = hand.press_mm[stop] * (1 + random.normal(0, hand.pressSpread));
    const outward = stop === 'low' ? -1 : 1;
    const firm = (stop === 'low' ? setup.lowStop_mm : setup.lowStop_mm + setup.backlash_mm) + outward * press;
    const to = spoils.stop({ place: firm, stop, rock, rocks: setup.rocks, backlash_mm: setup.backlash_mm });
    yield* stroke(place, to, hand, random);
    yield* rebounds(to, -outward, setup.backlash_mm, hand);
    const seconds = restLength(setup, hand, random);
    const whole = rock < setup.rocks ? { rock } : {};
    const at = spoils.rest(to, outward);
    yield { doing: restOf(stop), seconds, at, ...whole };
    place = at(seconds);
  }
}

/** Lifts the stem off the tooth and lets it hang at the free end of its travel: still as any rest, and none. */
export function* raise(from: number, hand: Hand, random: Random): Generator<Stretch> {
  yield move('lifting', hand.lift.up_s * uneven(hand, random), from, 0);
  yield hold('hanging', hand.lift.hangs_s * uneven(hand, random), 0);
}

/** One visit: the stem is lowered on the tooth (unless it stands there already), the gear rocked, the stem lifted. */
export function* visit(
  setup: StationSetup,
  from: 'hanging' | 'on-tooth',
  hand: Hand,
  random: Random,
  spoil?: Spoil,
): Generator<Stretch> {
  let place = setup.lowStop_mm + setup.liesAt * setup.backlash_mm;
  if (from === 'hanging') yield* lower(place, hand, random);
  for (const stretch of rocking(setup, hand, random, spoil)) {
    yield stretch;
    place = stretch.at(stretch.seconds);
  }
  yield* raise(place, hand, random);
}

/** Lowers the stem on the next tooth, which need not push it in as far as the last one did. */
export function* lower(to: number, hand: Hand, random: Random): Generator<Stretch> {
  yield move('lowering', hand.lift.down_s * uneven(hand, random), 0, to);
}
