import type { Length } from '../../../../shared/basics/quantity.ts';
import { fail, type Result } from '../../../../shared/basics/result.ts';
import { type DepthAnswer, type DepthPlace } from '../../../../shared/axle/arithmetic/depthShim.ts';
import {
  dialTravel,
  distanceFromArbor,
  type HeadFace,
  shimFromDistance,
  shimFromGaugeBlock,
  wantedDistance,
} from '../../../../shared/axle/arithmetic/depthTool.ts';
import {
  carryShimOver,
  type EtchedMark,
  type MarkUnit,
  type PlusMeaning,
} from '../../../../shared/axle/arithmetic/etchedMark.ts';

const depthWays = ['marks', 'arbor', 'block', 'dial', 'distance'] as const;
export type DepthWay = (typeof depthWays)[number];

/** What was read for a depth shim; unit and meaning of the mark are chosen by a person, never assumed. */
export interface DepthReadings {
  readonly way: DepthWay;
  readonly place: DepthPlace;
  readonly shim: Length | undefined;
  readonly unit: MarkUnit | undefined;
  readonly plusMeans: PlusMeaning | undefined;
  readonly oldMark: number | undefined;
  readonly newMark: number | undefined;
  readonly gap: Length | undefined;
  readonly arbor: Length | undefined;
  readonly measured: Length | undefined;
  readonly nominal: Length | undefined;
  readonly measuredTo: HeadFace | undefined;
  readonly wantedTo: HeadFace | undefined;
  readonly head: Length | undefined;
  readonly pointer: number | undefined;
}

/** The depth shim by the chosen way; nothing while something is still to be typed or chosen. */
export function depthShimFrom(read: DepthReadings): Result<DepthAnswer> | undefined {
  const { shim, way } = read;
  if (shim === undefined) return undefined;
  if (way === 'marks') return carried(read, shim);
  if (way === 'block') return read.gap === undefined ? undefined : onBlock(read, shim, read.gap);
  if (way === 'dial') {
    if (read.pointer === undefined) return undefined;
    const travel = dialTravel(read.pointer);
    return travel.ok ? onBlock(read, shim, travel.value) : travel;
  }
  return byDistance(read, shim);
}

function carried(read: DepthReadings, shim: Length): Result<DepthAnswer> | undefined {
  const [old, next] = [markOf(read, read.oldMark), markOf(read, read.newMark)];
  return old === undefined || next === undefined ? undefined : carryShimOver(shim, old, next, read.place);
}

/** A mark counts only with its unit and what + means; a full distance needs no meaning. */
function markOf({ unit, plusMeans }: DepthReadings, value: number | undefined): EtchedMark | undefined {
  if (value === undefined || unit === undefined) return undefined;
  const means = plusMeans ?? (unit.startsWith('distance') ? 'further out' : undefined);
  return means === undefined ? undefined : { value, unit, plusMeans: means };
}

/** No mark at all is an answer; one that was typed waits for its unit and meaning. */
function onBlock(read: DepthReadings, shim: Length, feeler: Length): Result<DepthAnswer> | undefined {
  if (read.place === 'under-cage') return cageOnBlock();
  const mark = markOf(read, read.newMark);
  if (read.newMark !== undefined && mark === undefined) return undefined;
  if (mark?.unit.startsWith('distance') === true) return distanceOnBlock();
  return shimFromGaugeBlock(feeler, mark, shim, read.place);
}

function byDistance(read: DepthReadings, shim: Length): Result<DepthAnswer> | undefined {
  const { gap, arbor, measured, nominal, measuredTo, wantedTo, newMark } = read;
  const mark = markOf(read, newMark);
  if (measuredTo === undefined || wantedTo === undefined) return undefined;
  if (newMark !== undefined && mark === undefined) return undefined;
  const full = mark?.unit.startsWith('distance') === true;
  if (nominal === undefined && !full) return undefined;
  const from =
    read.way === 'arbor'
      ? gap !== undefined && arbor !== undefined && distanceFromArbor({ gap, arborDiameter: arbor, to: measuredTo })
      : measured !== undefined && { distance: measured, to: measuredTo };
  if (from === false) return undefined;
  const wanted = { distance: wantedDistance(nominal ?? from.distance, mark), to: wantedTo };
  return shimFromDistance(from, wanted, shim, read.place, read.head);
}

const cageOnBlock = (): Result<never> =>
  fail({
    kind: 'no-block-for-cage',
    sentence: 'A gauge block gives the shim on the head side; this axle has its depth shim under the cage.',
    remedy: 'Measure the distance, or carry the shim over by the marks.',
  });

const distanceOnBlock = (): Result<never> =>
  fail({
    kind: 'distance-on-block',
    sentence: 'A gauge block wants a deviation; this mark is a full distance.',
    remedy: 'Measure the distance instead.',
  });
