import { type Length, newtonMetres, type Torque } from '../../basics/quantity.ts';

/**
 * A pull scale on a cord or an arm: torque = force × arm, the pull square to the arm. The arm is the radius at which
 * the cord leaves, to its middle.
 */
export interface Arm {
  readonly length: Length;
  /** Standard uncertainty of that length. */
  readonly u: Length;
}

/** Torque of a pull in newtons. Source of the rule: common practice. */
export const pullScale = (force_N: number, arm: Arm): Torque => newtonMetres((force_N * arm.length) / 1000);

/** What the arm adds to the doubt, as a share of the torque. */
export const armShare = ({ length, u }: Arm): number => u / length;
