import type { Blank } from './blank.ts';
import { tabulate, type Span } from './chebyshev.ts';
import type { FlankFrame } from './flankFrame.ts';
import { facing, type RingFlank } from './ringFlank.ts';
import { NoSuchGear, root, turnNear, type Turn } from './solve.ts';
import { cross, dot, minus, type Vector } from './vector.ts';

/**
 * Metal taken off the pinion beyond the true conjugate, as a gap square to the flank, mm: half the quadratic
 * a·u² + 2b·uv + c·v² about its apex (curvatures in 1/mm, u to the heel, v to the crown).
 */
export interface EaseOff {
  readonly lengthwise: number;
  readonly bias: number;
  readonly profile: number;
  /** Where nothing is taken off, as fractions of face and visible height from the middle: a perfect cut has 0, 0. */
  readonly apex: { readonly heel: number; readonly crown: number };
}

/** A pinion flank tabulated as its angle about the pinion axis over its own cone: U along it, V out of it, mm. */
export interface PinionFlank {
  /** Angle (rad) about the pinion axis of the flank at this place of the pinion cone. */
  angle(U: number, V: number): number;
  /** The part of the cone that was carved; beyond it the table means nothing. */
  readonly part: Reach;
}

/** Slopes of θ(R, z) by central differences, rad/mm. */
function slopes(flank: RingFlank, R: number, z: number): readonly [number, number] {
  const h = 1e-3;
  return [
    (flank.polar(R + h, z) - flank.polar(R - h, z)) / (2 * h),
    (flank.polar(R, z + h) - flank.polar(R, z - h)) / (2 * h),
  ];
}

/** Distance square to the flank for one radian of ring-gear turn, mm. */
export function lever(flank: RingFlank, R: number, z: number): number {
  const [dR, dz] = slopes(flank, R, z);
  return 1 / Math.hypot(1 / R, dR, dz);
}

/** Roll (ring-gear angle) at which a ring-gear point is in mesh: there the sliding lies in the flank. */
export function meshingRoll(blank: Blank, flank: RingFlank, R: number, z: number): number {
  const [dR, dz] = slopes(flank, R, z);
  const polar = flank.polar(R, z);
  const leaving = (roll: number): number => {
    const [c, s] = [Math.cos(polar + roll), Math.sin(polar + roll)];
    const normal: Vector = [-s / R - dR * c, c / R - dR * s, -dz];
    const place: Vector = [R * c, R * s, z];
    const ringVelocity = cross([0, 0, 1], place);
    const pinionVelocity = cross([-blank.ratio, 0, 0], minus(place, [0, blank.pinionAxisY_mm, 0]));
    return dot(normal, minus(pinionVelocity, ringVelocity));
  };
  return root(leaving, 0, 0.01, 1e-10);
}

/**
 * The envelope at one place of the pinion: of all the ring-gear positions of the roll, the one that cuts deepest into
 * this circle about the pinion axis. `tau` is the angle on that circle, fixed in space; the ring gear is where its
 * flank passes through the point, and the pinion turns `ratio` times as far, the other way.
 */
function envelopeAt(blank: Blank, flank: RingFlank, x: number, rho: number, guess: number): Turn {
  const toPinionAngle = (tau: number): number => tau + blank.ratio * rollThrough(blank, flank, x, rho, tau);
  const turn = turnNear(toPinionAngle, guess, 0.04, 4);
  // The convex flank is swept from the side of larger angles, the concave from that of smaller ones.
  if (!turn.settled || turn.bend * facing(flank.name) <= 0) {
    throw new NoSuchGear(`the ${flank.name} flank undercuts the pinion`);
  }
  return turn;
}

const pointOn = (blank: Blank, x: number, rho: number, tau: number): Vector => [
  x,
  blank.pinionAxisY_mm + rho * Math.cos(tau),
  rho * Math.sin(tau),
];

function rollThrough(blank: Blank, flank: RingFlank, x: number, rho: number, tau: number): number {
  const [px, py, pz] = pointOn(blank, x, rho, tau);
  return Math.atan2(py, px) - flank.polar(Math.hypot(px, py), pz);
}

/** Where a ring-gear place (fractions of the visible flank) meets the pinion, on the pinion's cone. */
function meetingPlace(blank: Blank, frame: FlankFrame, flank: RingFlank, heel: number, crown: number) {
  const u = heel * frame.faceWidth_mm;
  const [R, z] = frame.toAxial(u, frame.middleAt(u) + crown * frame.heightAt(u));
  const angle = flank.polar(R, z) + meshingRoll(blank, flank, R, z);
  const y = R * Math.sin(angle) - blank.pinionAxisY_mm;
  const [U, V] = frame.fromPinion(R * Math.cos(angle), Math.hypot(y, z));
  return { U, V, tau: Math.atan2(z, y) };
}

/** The part of the pinion's cone that meets the ring-gear flank, with room for displaced gears. V runs between two lines. */
interface Reach {
  readonly U: Span;
  lowAt(U: number): number;
  highAt(U: number): number;
  /** Angle about the pinion axis where the ring gear's tip meets it: where a search may begin. */
  tauAt(U: number): number;
}

/** A parabola through three places. */
function parabola(places: readonly (readonly [number, number])[]): (x: number) => number {
  return (x) =>
    places.reduce((sum, [xi, yi], i) => {
      const others = places.filter((_, j) => j !== i);
      return sum + others.reduce((share, [xj]) => (share * (x - xj)) / (xi - xj), yi);
    }, 0);
}

/** Room left around the part that meets, mm: as far as trials move the gears. */
const ROOM = 0.4;

/** Room to try towards the pinion's root, mm: there the envelope soon turns back on itself. */
const ROOMS_AT_ROOT = [0.4, 0.15, 0.02];

function reach(blank: Blank, frame: FlankFrame, flank: RingFlank, roomAtRoot: number): Reach {
  const line = (crown: number) => [-0.5, 0, 0.5].map((heel) => meetingPlace(blank, frame, flank, heel, crown));
  const [tip, root] = [line(0.5), line(-0.5)];
  const all = [...tip, ...root].map(({ U }) => U);
  const low = parabola(tip.map(({ U, V }) => [U, V]));
  const high = parabola(root.map(({ U, V }) => [U, V]));
  return {
    U: { low: Math.min(...all) - ROOM, high: Math.max(...all) + ROOM },
    lowAt: (U) => low(U) - roomAtRoot,
    highAt: (U) => high(U) + ROOM,
    tauAt: parabola(tip.map(({ U, tau }) => [U, tau])),
  };
}

/** How much an ease-off takes away at a ring-gear place, mm square to the flank. */
function taken(easeOff: EaseOff, frame: FlankFrame, u: number, v: number): number {
  const du = u - easeOff.apex.heel * frame.faceWidth_mm;
  const dv = v - frame.middleAt(0) - easeOff.apex.crown * frame.height_mm;
  return 0.5 * (easeOff.lengthwise * du * du + 2 * easeOff.bias * du * dv + easeOff.profile * dv * dv);
}

/**
 * Carves a pinion flank: the envelope of the ring-gear flank over the roll, less the ease-off.
 * @param nodes points along and across the pinion's cone
 * @throws NoSuchGear where the envelope turns back on itself: the set would be undercut
 */
export function carvePinionFlank(
  blank: Blank,
  frame: FlankFrame,
  flank: RingFlank,
  easeOff: EaseOff,
  nodes: readonly [number, number],
): PinionFlank {
  for (const room of ROOMS_AT_ROOT) {
    try {
      return carveWithin(reach(blank, frame, flank, room), blank, frame, flank, easeOff, nodes);
    } catch (reason) {
      if (!(reason instanceof NoSuchGear)) throw reason;
    }
  }
  throw new NoSuchGear(`the ${flank.name} flank undercuts the pinion`);
}

function carveWithin(
  part: Reach,
  blank: Blank,
  frame: FlankFrame,
  flank: RingFlank,
  easeOff: EaseOff,
  nodes: readonly [number, number],
): PinionFlank {
  let [guess, column] = [0, Number.NaN];
  const angle = (U: number, share: number): number => {
    const [low, high] = [part.lowAt(U), part.highAt(U)];
    const V = low + share * (high - low);
    const [x, rho] = frame.toPinion(U, V);
    if (U !== column) [guess, column] = [part.tauAt(U), U];
    const turn = envelopeAt(blank, flank, x, rho, guess);
    guess = turn.at;
    const [px, py, pz] = pointOn(blank, x, rho, turn.at);
    const R = Math.hypot(px, py);
    const [u, v] = frame.fromAxial(R, pz);
    const off = (taken(easeOff, frame, u, v) * blank.ratio) / lever(flank, R, pz);
    return turn.value - facing(flank.name) * off;
  };
  const table = tabulate(angle, part.U, { low: 0, high: 1 }, nodes);
  return {
    angle: (U, V) => {
      const low = part.lowAt(U);
      return table.at(U, (V - low) / (part.highAt(U) - low));
    },
    part,
  };
}
