/** The five things the bench tells hands that are busy. */
export const cues = ['rest', 'rock', 'done', 'outside', 'refused'] as const;
export type Cue = (typeof cues)[number];

/** One tone of a cue: when it starts, how long it lasts (seconds) and how high it is (Hz). */
export interface Tone {
  readonly at: number;
  readonly for: number;
  readonly pitch: number;
}

/**
 * Rhythm tells the cues apart as well as pitch, for ears that miss the high ones: a tick, two ticks, a rising
 * three, two long low ones, and a falling three. All lie where a compressor is weak and a small speaker strong.
 */
export const tonesOf: Readonly<Record<Cue, readonly Tone[]>> = {
  rest: [{ at: 0, for: 0.05, pitch: 990 }],
  rock: [
    { at: 0, for: 0.05, pitch: 990 },
    { at: 0.09, for: 0.05, pitch: 1320 },
  ],
  done: [
    { at: 0, for: 0.09, pitch: 880 },
    { at: 0.12, for: 0.09, pitch: 1175 },
    { at: 0.24, for: 0.22, pitch: 1760 },
  ],
  outside: [
    { at: 0, for: 0.26, pitch: 440 },
    { at: 0.36, for: 0.26, pitch: 440 },
  ],
  refused: [
    { at: 0, for: 0.12, pitch: 700 },
    { at: 0.16, for: 0.12, pitch: 525 },
    { at: 0.32, for: 0.3, pitch: 350 },
  ],
};
