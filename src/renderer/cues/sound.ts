import { type Cue, type Tone, tonesOf } from './cue.ts';

let context: AudioContext | undefined;

/** A browser lets a page sound only after the first touch or key; before that the cue is seen and not heard. */
function audio(): AudioContext | undefined {
  context ??= typeof AudioContext === 'undefined' ? undefined : new AudioContext();
  if (context?.state === 'suspended') void context.resume();
  return context;
}

export function sound(cue: Cue): void {
  const out = audio();
  if (out === undefined) return;
  for (const tone of tonesOf[cue]) play(out, tone);
}

function play(out: AudioContext, tone: Tone): void {
  const from = out.currentTime + 0.005 + tone.at;
  const until = from + tone.for;
  const oscillator = new OscillatorNode(out, { type: 'triangle', frequency: tone.pitch });
  const loudness = new GainNode(out, { gain: 0 });
  // Ramps instead of steps: a step is a click, and clicks are what a shop is full of.
  loudness.gain.setValueAtTime(0, from);
  loudness.gain.linearRampToValueAtTime(0.35, from + 0.008);
  loudness.gain.setValueAtTime(0.35, until - 0.02);
  loudness.gain.linearRampToValueAtTime(0, until);
  oscillator.connect(loudness).connect(out.destination);
  oscillator.start(from);
  oscillator.stop(until);
}
