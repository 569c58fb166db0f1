import type { ReactNode } from 'react';
import { showText } from '../../../../shared/basics/show.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import { preloadShimFrom, totalFrom } from './preload.ts';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';
import { SumWords } from './SumWords.tsx';
import { useLengths, useTorques } from './useQuantities.tsx';

type Lengths = 'shim' | 'earlierShim';
type Torques = 'running' | 'earlier' | 'wanted' | 'pinion' | 'case' | 'mesh';

/** The shim of a solid spacer from running torques, and what the total torque should be from its parts. */
export function PreloadSum({ build, assembly }: SumProps) {
  const units = useSession((session) => session.units);
  const lengths = useLengths<Lengths>();
  const torques = useTorques<Torques>();
  const { makeUp } = build;
  const shim = preloadShimFrom({
    shim: lengths.read('shim'),
    running: torques.read('running'),
    earlierShim: lengths.read('earlierShim'),
    earlierRunning: torques.read('earlier'),
    wanted: torques.read('wanted'),
  });
  const ratio = makeUp === undefined ? undefined : makeUp.ringTeeth / makeUp.pinionTeeth;
  const total = totalFrom({
    pinion: torques.read('pinion'),
    caseBearings: torques.read('case'),
    mesh: torques.read('mesh'),
    ratio,
  });
  const parts = [
    ...(shim?.ok === true ? [`${shim.value.words} It becomes ${showText(shim.value.shim, 'length', units)}.`] : []),
    ...(total === undefined ? [] : [`Total rotating torque about ${showText(total, 'torque', units)}.`]),
  ];
  return (
    <>
      <Stage title="Preload, worked out" aside={<SumChoice build={build} assembly={assembly} sum="preload" />}>
        <div className="form">
          {makeUp?.pinionPreload === 'solid-spacer' ? (
            <SpacerFields length={lengths.field} torque={torques.field} />
          ) : (
            <p>A crush sleeve has no shims: its preload comes step by step, at the pinion rotating torque.</p>
          )}
          <TotalFields torque={torques.field} />
        </div>
      </Stage>
      <SumWords
        build={build}
        assembly={assembly}
        about="Preload worked out."
        answer={parts.length === 0 ? undefined : parts.join(' ')}
        problem={shim?.ok === false ? shim.problem : undefined}
        why="The case turns slower than the pinion, so its drag counts by the ratio (common practice). All parts running, all with the same seal state."
      />
    </>
  );
}

interface SpacerFieldsProps {
  readonly length: (name: Lengths, label: string, hint?: string) => ReactNode;
  readonly torque: (name: Torques, label: string, hint?: string) => ReactNode;
}

const SpacerFields = ({ length, torque }: SpacerFieldsProps) => (
  <section className="form__part">
    <h2 className="form__heading">Shims of the solid spacer</h2>
    <div className="form__fields">
      {length('shim', 'Shims that are in now')}
      {torque('running', 'Running torque with them', 'Nut at full torque, seal out, bearings seated.')}
      {torque('wanted', 'Running torque wanted')}
      {length('earlierShim', 'Shims before', 'A second reading makes the slope this axle’s own.')}
      {torque('earlier', 'Running torque before')}
    </div>
  </section>
);

const TotalFields = ({ torque }: Pick<SpacerFieldsProps, 'torque'>) => (
  <section className="form__part">
    <h2 className="form__heading">Total rotating torque from its parts</h2>
    <div className="form__fields">
      {torque('pinion', 'Pinion, running')}
      {torque('case', 'Case bearings, at the case')}
      {torque('mesh', 'Mesh', 'Empty where it is not known.')}
    </div>
  </section>
);
