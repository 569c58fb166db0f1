/**
 * Rotating torque, live: `startTorque`, `stepTorque` for every reading and press, `finishTorque` for the result; the
 * same code while measuring, in replay and on the command line.
 */
export { stepTorque, torqueSoFar } from './capture.ts';
export { startTorque } from './state.ts';
export type { TorqueCapture, TorqueEvent, TorqueSettings } from './state.ts';
export { finishTorque } from './result.ts';
export type { NoTorque, TorqueMeasured } from './result.ts';
export type { TorqueFlag } from './flags.ts';
export { pullScale } from './pullScale.ts';
