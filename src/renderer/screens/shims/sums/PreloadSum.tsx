import { useState } from 'react';
import { showText } from '../../../../shared/basics/show.ts';
import { emptyDraft, type QuantityDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useSession } from '../../../stores/session.ts';
import { torqueIn } from './inputs.ts';
import { preloadShimFrom, totalFrom } from './preload.ts';
import { SumChoice } from './SumChoice.tsx';
import type { SumProps } from './sumProps.ts';
import { SumWords } from './SumWords.tsx';
import { useLengths } from './useLengths.tsx';

type Torques = 'running' | 'earlier' | 'wanted' | 'pinion' | 'case' | 'mesh';

/** The shim of a solid spacer from running torques, and what the total torque should be from its parts. */
export function PreloadSum({ build, assembly }: SumProps) {
  const units = useSession((session) => session.units);
  const { field, read } = useLengths<'shim' | 'earlierShim'>();
  const [drafts, setDrafts] = useState<Readonly<Partial<Record<Torques, QuantityDraft>>>>({});
  const draftFor = (name: Torques): QuantityDraft => drafts[name] ?? emptyDraft('torque', units);
  const torque = (name: Torques, label: string, hint?: string) => (
    <QuantityField
      label={label}
      measure="torque"
      draft={draftFor(name)}
      hint={hint}
      onChange={(draft) => setDrafts({ ...drafts, [name]: draft })}
    />
  );
  const typed = (name: Torques) => torqueIn(draftFor(name));
  const { makeUp } = build;
  const spacer = makeUp?.pinionPreload === 'solid-spacer';
  const shim = preloadShimFrom({
    shim: read('shim'),
    running: typed('running'),
    earlierShim: read('earlierShim'),
    earlierRunning: typed('earlier'),
    wanted: typed('wanted'),
  });
  const ratio = makeUp === undefined ? undefined : makeUp.ringTeeth / makeUp.pinionTeeth;
  const total = totalFrom(typed('pinion'), typed('case'), typed('mesh'), ratio);
  const parts = [
    ...(shim?.ok === true ? [`${shim.value.words} It becomes ${showText(shim.value.shim, 'length', units)}.`] : []),
    ...(total === undefined ? [] : [`Total rotating torque about ${showText(total, 'torque', units)}.`]),
  ];
  return (
    <>
      <Stage title="Preload, worked out" aside={<SumChoice build={build} assembly={assembly} sum="preload" />}>
        <div className="form">
          {spacer ? (
            <section className="form__part">
              <h2 className="form__heading">Shims of the solid spacer</h2>
              <div className="form__fields">
                {field('shim', 'Shims that are in now')}
                {torque('running', 'Running torque with them', 'Nut at full torque, seal out, bearings seated.')}
                {torque('wanted', 'Running torque wanted')}
                {field('earlierShim', 'Shims before', 'A second reading makes the slope this axle’s own.')}
                {torque('earlier', 'Running torque before')}
              </div>
            </section>
          ) : (
            <p>A crush sleeve has no shims: its preload comes step by step, at the pinion rotating torque.</p>
          )}
          <section className="form__part">
            <h2 className="form__heading">Total rotating torque from its parts</h2>
            <div className="form__fields">
              {torque('pinion', 'Pinion, running')}
              {torque('case', 'Case bearings, at the case')}
              {torque('mesh', 'Mesh', 'Empty where it is not known.')}
            </div>
          </section>
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
