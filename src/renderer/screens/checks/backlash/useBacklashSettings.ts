import { useState } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import type { BacklashBasis } from '../../../../shared/basics/recorded.ts';
import type { CaptureSettings, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import type { SpecSheet } from '../../../../shared/job/records/specSheet.ts';
import { fewestStations } from '../../../../shared/job/checks/checks.ts';
import { lastBacklashSettings } from '../stem/backlashStem.ts';

/** Backlash is felt as the limit wants it felt; without a limit along the turn at the heel, as most manuals say. */
function usualBasis(sheet: SpecSheet | undefined): BacklashBasis {
  const limit = sheet?.limits.find((one) => one.quantity === 'backlash');
  return limit !== undefined && 'basis' in limit && 'direction' in limit.basis
    ? limit.basis
    : { direction: 'along-rotation', at: 'heel' };
}

/** How backlash is taken on this screen: as it was begun, else as usual. */
export function useBacklashSettings(build: Build, begun: CaptureSettings | undefined) {
  return useState<CaptureSettingsOf<'backlash'>>(() => (begun?.kind === 'backlash' ? begun : usualSettings(build)));
}

/** As it was taken last time in this build, else as most manuals say. */
export const usualSettings = (build: Build): CaptureSettingsOf<'backlash'> =>
  lastBacklashSettings(build) ?? usual(build.specSheet);

type Settings = CaptureSettingsOf<'backlash'>;

/** Whether stations taken one way are stations of the other: they may differ in how many are wanted and what ends one. */
export const isFeltAlike = ({ basis, stem }: Settings, other: Settings): boolean =>
  JSON.stringify([basis, stem]) === JSON.stringify([other.basis, other.stem]);

const usual = (sheet: SpecSheet | undefined): CaptureSettingsOf<'backlash'> => ({
  kind: 'backlash',
  basis: usualBasis(sheet),
  stations: fewestStations,
  nextBy: 'itself',
});
