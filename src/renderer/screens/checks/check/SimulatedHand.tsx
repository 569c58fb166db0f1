import type { HandAction, SimulatedAssembly } from '../../../../shared/contract/bench.ts';
import { type Assembly, packAt } from '../../../../shared/job/records/build.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { ShimPlace } from '../../../../shared/axle/makeUp.ts';
import { HandButton } from '../../../parts/HandButton.tsx';
import { ask } from '../../../stores/ask.ts';

interface SimulatedHandProps {
  readonly action: HandAction;
  /** The assembly on the stand, so that the simulated axle is put together the same way. */
  readonly assembly?: Assembly;
  /** How far the nut was turned on its sleeve, so that the simulated one follows. */
  readonly nutTurned_deg?: number;
  /** What the hand writes down before it moves. */
  readonly onBegin?: () => void;
}

/** On the simulated bench only: lets the simulated hand do what the technician's would. */
export function SimulatedHand({ action, assembly, nutTurned_deg, onBegin }: SimulatedHandProps) {
  const on =
    assembly === undefined
      ? {}
      : { on: { ...assembledAs(assembly), ...(nutTurned_deg === undefined ? {} : { nutTurned_deg }) } };
  const move = (): Promise<unknown> => {
    onBegin?.();
    return ask('bench.hand', { action: { ...action, ...on } });
  };
  return <HandButton move={move} />;
}

/** The shims as measured go into the simulated axle; while any is missing the scenario's own stay in it. */
export function assembledAs(assembly: Assembly): SimulatedAssembly {
  const { phase, number, bearings, seal } = assembly;
  const pack = (place: ShimPlace): number | undefined => {
    const found = packAt(assembly, place);
    return found === undefined ? undefined : insideOf(found.pack);
  };
  const [pinionDepth, ringSide, oppositeSide] = [pack('pinion-depth'), pack('ring-side'), pack('opposite-side')];
  if (pinionDepth === undefined || ringSide === undefined || oppositeSide === undefined) {
    return { phase, number, bearings, seal };
  }
  return { phase, number, bearings, seal, packs_mm: { pinionDepth, ringSide, oppositeSide } };
}
