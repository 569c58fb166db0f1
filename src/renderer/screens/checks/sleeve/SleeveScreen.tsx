import { useState } from 'react';
import type { CheckProps } from '../check/checkProps.ts';
import { basisWanted, torqueSettings } from '../torque/settings.ts';
import { SleeveLive } from './SleeveLive.tsx';
import { sleeveAim } from './steps.ts';

/** Creeping up on a crush sleeve, wherever there is one; the band to creep towards is asked for first. */
export function SleeveScreen(props: CheckProps & { readonly onByHand: () => void }) {
  const { build, assembly, check } = props;
  const [basis] = useState(() => basisWanted(build.specSheet, check.limits[0], assembly));
  const settings = torqueSettings(assembly, basis);
  const aim = sleeveAim(build.specSheet, settings.basis);
  return <SleeveLive {...props} settings={settings} aim={aim} />;
}

/** The preload of the pinion is set on a crush sleeve in the final assembly only. */
export const isSleeveStep = ({ build, assembly, check }: CheckProps): boolean =>
  check.id === 'pinion-torque' && assembly.phase === 'final' && build.makeUp?.pinionPreload === 'crush-sleeve';
