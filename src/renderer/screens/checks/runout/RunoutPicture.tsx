import { useMemo } from 'react';
import { unitShown } from '../../../../shared/basics/show.ts';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { Gauge } from '../../../../shared/job/records/gauge.ts';
import type { RunoutResult } from '../../../../shared/job/records/measurement.ts';
import { insideOf } from '../../../../shared/basics/recorded.ts';
import type { Check } from '../../../../shared/job/checks/checks.ts';
import { BigNumber } from '../../../instruments/BigNumber.tsx';
import { Readout } from '../../../instruments/Readout.tsx';
import { Bar, type BarView } from '../../../instruments/Bar.tsx';
import { Ring, type RingView } from '../../../instruments/Ring.tsx';
import { Unrolled } from '../../../instruments/Unrolled.tsx';
import { Trace } from '../../../instruments/Trace.tsx';
import { useRun } from '../../../live/run.ts';
import { useSession } from '../../../stores/session.ts';
import { limitFor, ringRunout } from '../../../../shared/presentation/drawing/stations.ts';
import { shapeOf } from '../../../../shared/presentation/words/standing.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import { endsOf } from '../../../../shared/job/records/specSheet.ts';
import { runoutResultOf } from './taken.ts';

interface RunoutPictureProps {
  readonly gauge: Gauge;
  readonly check: Check | undefined;
  readonly build: Build | undefined;
}

/** The live reading, the full movement so far, the trace, and the gear's shape as far as it is known. */
export function RunoutPicture({ gauge, check, build }: RunoutPictureProps) {
  const run = useRun(({ run }) => run);
  const units = useSession((session) => session.units);
  const result = runoutResultOf(run);
  const view = useMemo(() => runoutView(result, check, build), [result, check, build]);
  return (
    <div className="measure">
      <div className="measure__top">
        <Readout gauge={gauge} words={`Live reading in ${unitShown('length', units).symbol}`} />
        <div className="measure__found">
          <BigNumber
            words="Full movement so far"
            value={result?.tir_mm}
            dimension="length"
            resolution={insideOf(gauge.resolution)}
          />
        </div>
      </div>
      <Trace gauge={gauge.id} quantity="Indicator" dimension="length" marks={run?.marks ?? []} calm />
      {run?.settings.kind === 'runout' && run.settings.mode === 'continuous' ? (
        <Bar view={runoutBar(result, check, build, undefined)} />
      ) : (
        <>
          <Ring view={view} />
          <Unrolled view={view} />
        </>
      )}
    </div>
  );
}

/** The full movement against its limit, which is all there is to draw of a turn whose angle nobody measured. */
export function runoutBar(
  result: RunoutResult | undefined,
  check: Check | undefined,
  build: Build | undefined,
  judged: Parameters<typeof shapeOf>[0] | undefined,
): BarView | undefined {
  const quantity = check?.limits[0];
  const limit = quantity === undefined ? undefined : limitFor(build?.specSheet, quantity);
  if (check === undefined || limit === undefined || result === undefined || isNone(result.tir_mm)) return undefined;
  const shape = judged === undefined ? 'not-measured' : shapeOf(judged);
  return {
    quantity: check.title,
    dimension: 'length',
    value: result.tir_mm,
    ...(isNone(result.U95_mm) ? {} : { U95: result.U95_mm }),
    limits: endsOf(limit),
    state: shape === 'recorded' ? 'not-measured' : shape,
  };
}

/** The ring as runout draws it: no stations of backlash, only the shape of the gear. */
export function runoutView(
  result: RunoutResult | undefined,
  check: Check | undefined,
  build: Build | undefined,
): RingView {
  const quantity = check?.limits[0];
  const limit = quantity === undefined ? undefined : limitFor(build?.specSheet, quantity);
  const runout = result === undefined ? undefined : ringRunout(result, limit);
  return {
    quantity: check?.title ?? 'Runout',
    teeth: build?.makeUp?.ringTeeth ?? 40,
    stations: [],
    ...(runout === undefined ? {} : { runout }),
  };
}
