import { useMemo } from 'react';
import { isNone } from '../../../../shared/basics/result.ts';
import { unitShown } from '../../../../shared/basics/show.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { Readout } from '../../../instruments/Readout.tsx';
import { Ring, type RingView } from '../../../instruments/Ring.tsx';
import { Unrolled } from '../../../instruments/Unrolled.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { type Run, useRun } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { drawnLimits, limitFor, ringStations } from '../../../../shared/presentation/drawing/stations.ts';
import { Rocks } from './Rocks.tsx';
import { landedAt, rocksNow, stationRows } from './found.ts';

/** Teeth drawn where nobody has described the axle; the graduation carries no reading. */
const someTeeth = 40;

interface BacklashPictureProps {
  readonly gauge: Gauge;
  readonly sheet: SpecSheet | undefined;
  readonly teeth: number | undefined;
}

/** The live reading, the rocks of this station, the trace, and the ring with what is already known. */
export function BacklashPicture({ gauge, sheet, teeth }: BacklashPictureProps) {
  const run = useRun(({ run }) => run);
  const now = rocksNow(run);
  const units = useSession((session) => session.units);
  const view = useMemo(() => ringView(run, sheet, teeth ?? someTeeth), [run, sheet, teeth]);
  return (
    <div className="measure">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live reading in ${unitShown('length', units).symbol}`} />
        <div className="measure__found">
          <Rocks now={now} {...stationNow(run, view)} />
        </div>
      </div>
      <Trace
        gauge={gauge.id}
        quantity="Indicator"
        dimension="length"
        marks={run?.marks ?? []}
        span_s={9}
        band={view.limits}
        since_s={landedAt(run)}
        fromRest
        still={now.lifted}
      />
      <Ring view={view} />
      <Unrolled view={view} />
    </div>
  );
}

/** The station at work of how many, and how the one before it came out. */
function stationNow(run: Run | undefined, view: RingView) {
  const wanted = run?.settings.kind === 'backlash' ? (run.settings.stations ?? 0) : 0;
  const taken = run?.stations.length ?? 0;
  const last = view.stations.find(({ number }) => number === taken);
  const of = Math.max(wanted, taken);
  return {
    station: Math.min(of, taken + 1),
    of,
    last:
      last === undefined || isNone(last.value_mm)
        ? undefined
        : { value_mm: last.value_mm, state: view.limits === undefined ? ('recorded' as const) : last.state },
  };
}

function ringView(run: Run | undefined, sheet: SpecSheet | undefined, teeth: number): RingView {
  const basis = run?.settings.kind === 'backlash' ? run.settings.basis : undefined;
  const wanted = run?.settings.kind === 'backlash' ? (run.settings.stations ?? 0) : 0;
  const limit = limitFor(sheet, 'backlash', basis);
  const rows = run === undefined ? [] : stationRows(run.stations);
  const now = rocksNow(run);
  const stations = ringStations(rows, { wanted, limit, sheet });
  const next = rows.length < wanted ? rows.length + 1 : undefined;
  const angle = stations.find((station) => station.number === next)?.angle_deg;
  return {
    quantity: 'Backlash',
    teeth,
    stations,
    ...drawnLimits(limit),
    ...(next === undefined ? {} : { next }),
    ...(now.mean === undefined || angle === undefined ? {} : { live: { angle_deg: angle, value_mm: now.mean } }),
  };
}
