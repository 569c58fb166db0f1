import { expect, it } from 'vitest';
import { atStations, optionOf, runoutOptions } from '../../../../../../src/renderer/screens/checks/runout/settings.ts';

it.each([
  [4, 8],
  [6, 12],
  [8, 8],
  [12, 12],
  [3, 12],
  [5, 8],
])('a runout beside a backlash of %i stations is taken at %i, which are offered', (backlash, runout) => {
  const settings = atStations(backlash);
  expect(settings).toEqual({ kind: 'runout', mode: 'stations', stations: runout });
  expect(runoutOptions.map(({ value }) => value)).toContain(optionOf(settings));
});
