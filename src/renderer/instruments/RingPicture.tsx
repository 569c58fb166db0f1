import { useMemo } from 'react';
import { type Assembly, type Build, latest } from '../../shared/job/records/build.ts';
import type { MakeUp } from '../../shared/axle/makeUp.ts';
import { sheetFor } from '../../shared/job/checks/limitChanges.ts';
import { fewestStations } from '../../shared/job/checks/checks.ts';
import { drawnLimits, limitFor, ringRunout, ringStations } from '../../shared/presentation/drawing/stations.ts';
import { Ring, type RingView } from './Ring.tsx';
import { Unrolled } from './Unrolled.tsx';

/** Backlash and ring-gear runout of an assembly on the same angles, as recorded. */
export function RingPicture({
  build,
  assembly,
}: {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly assembly: Assembly;
}) {
  const view = useMemo(() => viewOf(build, assembly), [build, assembly]);
  return (
    <div className="standing__pictures">
      <Ring view={view} />
      <Unrolled view={view} />
    </div>
  );
}

function viewOf(build: Build & { readonly makeUp: MakeUp }, assembly: Assembly): RingView {
  const found = latest(assembly, 'backlash');
  const backlash = found?.result;
  const runout = latest(assembly, 'ring-gear-runout')?.result;
  const measured = backlash?.kind === 'backlash' ? backlash : undefined;
  const sheet = found === undefined ? build.specSheet : sheetFor(build, found);
  const limit = limitFor(sheet, 'backlash', measured?.basis);
  const turning =
    runout?.kind === 'runout' ? ringRunout(runout, limitFor(build.specSheet, 'ring-gear-runout')) : undefined;
  return {
    quantity: 'Backlash',
    teeth: build.makeUp.ringTeeth,
    stations: ringStations(measured?.stations ?? [], {
      wanted: measured === undefined ? fewestStations : 0,
      limit,
      sheet,
    }),
    ...drawnLimits(limit),
    ...(turning === undefined ? {} : { runout: turning }),
  };
}
