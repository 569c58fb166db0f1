import type { GaugeState } from '../../shared/contract/gauges.ts';
import type { Liveness } from '../parts/LiveMark.tsx';

interface LinkWords {
  readonly liveness: Liveness;
  readonly short: string;
  readonly sentence: string;
  readonly live: boolean;
}

const words: Readonly<Record<GaugeState['state'], LinkWords>> = {
  connecting: { liveness: 'quiet', short: 'connecting', sentence: 'The bench is opening the link.', live: false },
  live: { liveness: 'live', short: 'live', sentence: 'Readings come in.', live: true },
  silent: {
    liveness: 'quiet',
    short: 'silent',
    sentence: 'The link is open and nothing comes. Press the send key of the gauge, or wake it up.',
    live: false,
  },
  gone: {
    liveness: 'away',
    short: 'unplugged',
    sentence: 'The cable was pulled or the gauge switched off. Plug it in again; the bench goes on by itself.',
    live: false,
  },
  problem: { liveness: 'fault', short: 'problem', sentence: 'The link could not be opened.', live: false },
  'unplugged-by-hand': {
    liveness: 'away',
    short: 'put away',
    sentence: 'Put away here. Plug it in to go on.',
    live: false,
  },
};

const notHeard: LinkWords = {
  liveness: 'quiet',
  short: 'nothing heard',
  sentence: 'The link is open and nothing was heard yet. Press the send key of the gauge, or move its spindle.',
  live: false,
};

const unknown: LinkWords = { liveness: 'away', short: 'not plugged in', sentence: 'Not plugged in.', live: false };

/** How a gauge's link stands, by shape, in two words and in a sentence. */
export function linkWords(state: GaugeState | undefined): LinkWords {
  if (state === undefined) return unknown;
  return state.state === 'live' && !state.heard ? notHeard : words[state.state];
}
