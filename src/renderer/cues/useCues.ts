import { useEffect } from 'react';
import type { SpecSheet } from '../../shared/job/records/specSheet.ts';
import { onFound } from '../live/run.ts';
import { useSession } from '../stores/session.ts';
import { cueOf } from './cueOf.ts';
import { giveCue } from './give.ts';

/** Gives the cues of the measurement on the stage for as long as it is there. */
export function useCues(sheet: SpecSheet | undefined): void {
  useEffect(
    () =>
      onFound((event, { settings }) => {
        const found = cueOf(event, useSession.getState().units, sheet, settings);
        if (found !== undefined) giveCue(found.cue, found.words, found.spoken, found.shape);
      }),
    [sheet],
  );
}
