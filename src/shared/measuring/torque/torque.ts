/**
 * Rotating torque, live: `startTorque`, `stepTorque` for every reading and press, `finishTorque` for the result; the
 * same code while measuring, in replay and on the command line.
 */
export { startTorque, stepTorque, torqueSoFar } from './torqueCapture.ts';
export type { TorqueCapture, TorqueEvent, TorqueSettings } from './torqueCapture.ts';
export { finishTorque } from './torqueResult.ts';
export type { NoTorque, TorqueFlag, TorqueMeasured } from './torqueResult.ts';
export { pullScale } from './pullScale.ts';
