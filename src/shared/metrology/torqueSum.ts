import { newtonMetres, type Torque } from '../quantities/quantity.ts';
import { combine, type CombinedUncertainty } from './uncertainty.ts';

export interface KnownTorque {
  readonly value: Torque;
  /** Standard uncertainty. */
  readonly u: number;
}

/** What turns with the pinion once the case is in. */
export interface TorqueSum {
  /** Rotating torque of the pinion alone. */
  readonly pinion: KnownTorque;
  /** Drag of the case in its bearings, felt at the ring gear. */
  readonly caseDrag: KnownTorque;
  /** Ring-gear teeth ÷ pinion teeth. */
  readonly ratio: number;
  /** Friction of the mesh at the pinion, where someone knows it. */
  readonly mesh?: KnownTorque;
}

/**
 * Total rotating torque at the pinion: pinion + case drag ÷ ratio + mesh friction. Common practice.
 * What is really measured above this sum is side preload or a tight mesh; below it, loose side bearings.
 */
export function totalTorque({ pinion, caseDrag, ratio, mesh }: TorqueSum): {
  readonly total: Torque;
  readonly uncertainty: CombinedUncertainty;
} {
  return {
    total: newtonMetres(pinion.value + caseDrag.value / ratio + (mesh?.value ?? 0)),
    uncertainty: combine([
      { name: 'pinion', u: pinion.u },
      { name: 'case drag', u: caseDrag.u / ratio },
      ...(mesh === undefined ? [] : [{ name: 'mesh', u: mesh.u }]),
    ]),
  };
}

/** The case's own drag that a measured total implies: the sum the other way round. Common practice. */
export const caseDragFrom = (total: Torque, pinion: Torque, ratio: number, mesh: Torque = newtonMetres(0)): Torque =>
  newtonMetres((total - pinion - mesh) * ratio);
