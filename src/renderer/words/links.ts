import type { GaugeState } from '../../shared/contract/gauges.ts';
import type { State } from '../../shared/presentation/drawing/states.ts';

interface LinkWords {
  readonly shape: State;
  readonly short: string;
  readonly sentence: string;
  readonly live: boolean;
}

const words: Readonly<Record<GaugeState['state'], LinkWords>> = {
  connecting: { shape: 'not-measured', short: 'connecting', sentence: 'The bench is opening the link.', live: false },
  live: { shape: 'within', short: 'live', sentence: 'Readings come in.', live: true },
  silent: {
    shape: 'stale',
    short: 'silent',
    sentence: 'The link is open and nothing comes. Press the send key of the gauge, or wake it up.',
    live: false,
  },
  gone: {
    shape: 'stale',
    short: 'unplugged',
    sentence: 'The cable was pulled or the gauge switched off. Plug it in again; the bench goes on by itself.',
    live: false,
  },
  problem: { shape: 'outside', short: 'problem', sentence: 'The link could not be opened.', live: false },
  'unplugged-by-hand': {
    shape: 'not-measured',
    short: 'put away',
    sentence: 'Put away here. Plug it in to go on.',
    live: false,
  },
};

const unknown: LinkWords = { shape: 'not-measured', short: 'not plugged in', sentence: 'Not plugged in.', live: false };

/** How a gauge's link stands, by shape, in two words and in a sentence. */
export const linkWords = (state: GaugeState | undefined): LinkWords =>
  state === undefined ? unknown : words[state.state];
