import { flanksScene } from '../drawing/flanks.ts';
import type { FlankView } from '../drawing/flanksInput.ts';
import { ringScene } from '../drawing/ring.ts';
import type { RingInput } from '../drawing/ringInput.ts';
import { drawnLimits, limitFor, ringRunout, ringStations } from '../drawing/stations.ts';
import { unrolledScene } from '../drawing/unrolled.ts';
import type { Mark } from '../../axle/mark/mark.ts';
import type { UnitSystem } from '../../basics/show.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import type { BacklashResult, MarkResult, RunoutResult } from '../../job/records/measurement.ts';
import { isNone, type OrNone } from '../../basics/result.ts';
import type { CertificateContent } from './content.ts';
import type { PictureBlock } from './page.ts';

/** Backlash and runout round the gear: the drawing of the screens, with what was recorded. */
export function ringPicture(
  content: Pick<CertificateContent, 'makeUp' | 'specSheet'>,
  backlash: BacklashResult | undefined,
  runout: RunoutResult | undefined,
  system: UnitSystem,
): PictureBlock | undefined {
  const input = ringInput(content, backlash, runout, system);
  return input === undefined ? undefined : { kind: 'picture', share: 1, draw: (size) => ringScene({ ...input, size }) };
}

/** The same, cut open at station 1 and laid flat: the ring says where, this says how much. */
export function unrolledPicture(
  content: Pick<CertificateContent, 'makeUp' | 'specSheet'>,
  backlash: BacklashResult | undefined,
  runout: RunoutResult | undefined,
  system: UnitSystem,
): PictureBlock | undefined {
  const input = ringInput(content, backlash, runout, system);
  return input === undefined
    ? undefined
    : { kind: 'picture', share: 0.125, draw: (size) => unrolledScene({ ...input, size }) };
}

function ringInput(
  { makeUp, specSheet }: Pick<CertificateContent, 'makeUp' | 'specSheet'>,
  backlash: BacklashResult | undefined,
  runout: RunoutResult | undefined,
  system: UnitSystem,
): Omit<RingInput, 'size'> | undefined {
  if (makeUp === undefined || (backlash === undefined && runout === undefined)) return undefined;
  const limit = limitFor(specSheet, 'backlash', backlash?.basis);
  const turning = runout === undefined ? undefined : ringRunout(runout, limitFor(specSheet, 'ring-gear-runout'));
  return {
    quantity: backlash === undefined ? 'Runout' : 'Backlash',
    teeth: makeUp.ringTeeth,
    stations: backlash === undefined ? [] : ringStations(backlash.stations, { limit, sheet: specSheet }),
    ...(backlash === undefined ? {} : drawnLimits(limit)),
    ...(turning === undefined ? {} : { runout: turning }),
    system,
  };
}

/** Marks of one assembly on both flanks, with the mark as found as a thin line where it was recorded. */
export function flanksPicture(
  makeUp: MakeUp | undefined,
  seen: MarkResult | undefined,
  found: MarkResult | undefined,
  { bare = false }: { readonly bare?: boolean } = {},
): PictureBlock | undefined {
  if (makeUp === undefined || (seen === undefined && found === undefined)) return undefined;
  const drive = makeUp.driveFlank;
  const coast = drive === 'convex' ? 'concave' : 'convex';
  const view = (flank: FlankView['flank'], side: 'drive' | 'coast'): FlankView => ({
    flank,
    ...markAs('seen', seen?.[side]),
    ...markAs('found', found?.[side]),
  });
  const input = {
    drive: view(drive, 'drive'),
    coast: view(coast, 'coast'),
    cut: makeUp.cut,
    turned: 'toe-left',
    bare,
  } as const;
  return { kind: 'picture', share: 0.28, draw: (size) => flanksScene({ ...input, size }) };
}

const markAs = (as: 'seen' | 'found', mark: OrNone<Mark> | undefined): Partial<FlankView> =>
  mark === undefined || isNone(mark) ? {} : { [as]: mark };
