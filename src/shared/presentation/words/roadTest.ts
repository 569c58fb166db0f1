import type { Heard } from '../../job/records/notebook.ts';

/** A road test as it is entered. */
export interface RoadTest {
  /** As it was typed, with its unit. */
  readonly distance: string;
  readonly heard: Heard;
  /** When it was heard; empty where nothing was. */
  readonly when: readonly LoadOnRoad[];
  readonly note: string;
}

/** How the axle is loaded on the road: which flank carries tells where to look. */
export const loadsOnRoad = ['pulling', 'coasting', 'steady', 'turning'] as const;
export type LoadOnRoad = (typeof loadsOnRoad)[number];

export const loadWords: Readonly<Record<LoadOnRoad, string>> = {
  pulling: 'when pulling',
  coasting: 'when coasting',
  steady: 'at a steady pace',
  turning: 'in turns',
};

const heardWords: Readonly<Record<Heard, string>> = {
  nothing: 'nothing heard',
  'as-before': 'the noise as before',
  other: 'another noise',
};

/** "After 25 km: another noise, when pulling, in turns. Warm, not hot." */
export function roadTestText({ distance, heard, when, note }: RoadTest): string {
  const loads = heard === 'nothing' ? [] : when.map((load) => loadWords[load]);
  const said = note.trim() === '' ? '' : ` ${note.trim()}`;
  return `After ${distance}: ${[heardWords[heard], ...loads].join(', ')}.${said}`;
}
