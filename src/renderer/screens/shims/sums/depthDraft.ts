import type { HeadFace } from '../../../../shared/axle/arithmetic/depthTool.ts';
import type { MarkUnit, PlusMeaning } from '../../../../shared/axle/arithmetic/etchedMark.ts';
import type { DepthWay } from './depth.ts';
import type { DepthNumber } from './depthFields.ts';

/** What is chosen for a depth shim, and its numbers as typed. Unit and meaning of the mark are never assumed. */
export interface DepthDraft extends Readonly<Record<DepthNumber, string>> {
  readonly way: DepthWay;
  readonly unit: MarkUnit | undefined;
  readonly plusMeans: PlusMeaning | undefined;
  readonly measuredTo: HeadFace | undefined;
  readonly wantedTo: HeadFace | undefined;
}

export const blankDepth: DepthDraft = {
  way: 'marks',
  unit: undefined,
  plusMeans: undefined,
  measuredTo: undefined,
  wantedTo: undefined,
  oldMark: '',
  newMark: '',
  pointer: '',
};
