import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { giveCue, useCue } from '../../../../src/renderer/cues/give.ts';
import { useSession } from '../../../../src/renderer/stores/session.ts';

/** What a browser would have said and sounded. There is none here, so its voice and its sound are listened to. */
const said: string[] = [];
const sounded: number[] = [];

class Voice {
  readonly text: string;
  lang = '';
  constructor(text: string) {
    this.text = text;
  }
}
class Gain {
  readonly gain = { setValueAtTime: () => undefined, linearRampToValueAtTime: () => undefined };
  readonly connect = () => undefined;
}
class Tone {
  readonly connect = (next: Gain): Gain => next;
  readonly start = () => undefined;
  readonly stop = () => undefined;
  constructor(_: unknown, { frequency }: { readonly frequency: number }) {
    sounded.push(frequency);
  }
}
class Sounding {
  readonly state = 'running';
  readonly currentTime = 0;
  readonly destination = {};
}

beforeEach(() => {
  vi.useFakeTimers();
  said.length = 0;
  sounded.length = 0;
  vi.stubGlobal('SpeechSynthesisUtterance', Voice);
  vi.stubGlobal('speechSynthesis', { cancel: () => undefined, speak: ({ text }: Voice) => said.push(text) });
  vi.stubGlobal('AudioContext', Sounding);
  vi.stubGlobal('OscillatorNode', Tone);
  vi.stubGlobal('GainNode', Gain);
  useCue.setState({ cue: undefined });
});
afterEach(() => {
  useSession.setState({ sound: true, pictureCues: true, spoken: false });
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe('giving a cue', () => {
  it('is seen and heard, and not spoken unless that is asked for', () => {
    giveCue('done', 'Station 1: 0.21 mm', 'Station 1: 0.21 mm');
    expect(useCue.getState()).toMatchObject({ cue: 'done', words: 'Station 1: 0.21 mm' });
    expect(sounded.length).toBeGreaterThan(0);
    expect(said).toEqual([]);
  });

  it('says the number where that is asked for, and nothing for a tick', () => {
    useSession.setState({ spoken: true });
    giveCue('done', 'Station 1: 0.21 mm', 'Station 1: 0.21 mm');
    giveCue('rest', 'Rest');
    expect(said).toEqual(['Station 1: 0.21 mm']);
  });

  it('leaves out the sound or the picture, each by itself', () => {
    useSession.setState({ sound: false });
    giveCue('rock', 'Rock 1');
    expect(sounded).toEqual([]);
    expect(useCue.getState().cue).toBe('rock');
    useCue.setState({ cue: undefined });
    useSession.setState({ sound: true, pictureCues: false });
    giveCue('rock', 'Rock 2');
    expect(sounded.length).toBeGreaterThan(0);
    expect(useCue.getState().cue).toBeUndefined();
  });

  it('clears the picture by itself, and a later cue is not cut short by an earlier one', () => {
    giveCue('rest', 'Rest');
    vi.advanceTimersByTime(300);
    giveCue('outside', 'Station 2: 0.33 mm, outside');
    vi.advanceTimersByTime(400);
    expect(useCue.getState().cue).toBe('outside');
    vi.advanceTimersByTime(5000);
    expect(useCue.getState().cue).toBeUndefined();
  });
});
