import { useMemo } from 'react';
import { Switch } from 'react-aria-components';
import { figuresOf } from '../../../../shared/axle/experience/figures.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { setOf } from '../../../../shared/axle/setOf.ts';
import { backlashRates } from '../../../../shared/job/planning/positions.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import { type Earlier, useEarlier } from '../../../planning/useEarlier.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { changeSession } from '../../../stores/session.ts';
import { go } from '../../../stores/route.ts';
import { EarlierList } from './EarlierList.tsx';
import { LearntTable } from './LearntTable.tsx';
import './experience.css';

/** What earlier builds of the shop have taught: which ones, what it comes to, and one switch. */
export function ExperienceScreen({ build }: { readonly build: Build }) {
  const earlier = useEarlier(build);
  const rate = useMemo(() => rateOf(build.makeUp), [build.makeUp]);
  return (
    <>
      <Stage title="What earlier builds taught" aside={<UseThem on={earlier.on} />}>
        <div className="experience">
          <p className="experience__said" aria-live="polite">
            {said(earlier)}
          </p>
          {earlier.experience === undefined ? undefined : (
            <LearntTable rate={rate} figures={figuresOf(earlier.experience)} on={earlier.on} />
          )}
          <EarlierList earlier={earlier} rate={rate} />
          <p className="quiet experience__why">
            A finished build shows how thick the compound lay, how strongly the gears are relieved and what a millimetre
            made of backlash. For the film count builds by the same hand with the same compound; for the relief those of
            this axle and maker, as typed; for the backlash those of this axle. A build that is altered counts no more
            until it is certified again.
          </p>
        </div>
      </Stage>
      <Words
        title="The plan need not begin from nothing"
        next={{ words: 'To the plan', run: () => go({ at: 'plan', build: build.id }) }}
      >
        <p>
          It is worked out anew from the notebooks each time. Builds that contradict each other teach little, and what
          this axle shows goes before all of them.
        </p>
      </Words>
    </>
  );
}

/** Backlash at the heel that the mesh model computes for each mm of the ring gear. */
function rateOf(makeUp: MakeUp | undefined): number | undefined {
  const model = makeUp === undefined ? undefined : setOf(makeUp);
  return model?.ok === true ? backlashRates(model.value).ringAway : undefined;
}

const UseThem = ({ on }: { readonly on: boolean }) => (
  <Switch className="switch" isSelected={on} onChange={(earlierBuilds) => changeSession({ earlierBuilds })}>
    <span className="switch__track" aria-hidden="true" />
    Let the plan use them
  </Switch>
);

/** In one sentence what the plan does with them. */
function said({ builds, ready, experience, on }: Earlier): string {
  if (builds === undefined) return 'The notebooks are being read.';
  if (builds.length === 0)
    return 'No finished build has this axle, or was marked by this hand with this compound: the plan begins from what is usual.';
  if (!ready)
    return `What ${builds.length === 1 ? 'one build taught' : `${builds.length} builds taught`} is being worked out.`;
  if (experience === undefined) return 'No earlier build counts: the plan begins from what is usual.';
  return on ? `The plan begins from ${experience.from}.` : `The plan leaves out ${experience.from}.`;
}
