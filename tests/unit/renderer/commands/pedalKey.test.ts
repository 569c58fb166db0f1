import { describe, expect, it } from 'vitest';
import { whyNoPedal } from '../../../../src/renderer/commands/pedalKey.ts';

const commands = [{ key: 'M', title: 'Just measure' }];

describe('a key for the pedal', () => {
  it.each([
    ['F9', 'F9'],
    ['PageDown', 'PageDown'],
    ['Space', ' '],
    ['MediaPlayPause', 'MediaPlayPause'],
  ])('%s is taken', (code, key) => {
    expect(whyNoPedal({ code, key }, commands)).toBeUndefined();
  });

  it.each([
    ['KeyM', 'm', 'M is for “Just measure”'],
    ['KeyX', 'x', 'written into fields'],
    ['Digit4', '4', 'written into fields'],
    ['Enter', 'Enter', 'keeps its own meaning'],
    ['ArrowDown', 'ArrowDown', 'keeps its own meaning'],
    ['ShiftLeft', 'Shift', 'keeps its own meaning'],
    ['', 'Unidentified', 'no name'],
  ])('%s is refused with the reason', (code, key, reason) => {
    expect(whyNoPedal({ code, key }, commands)).toContain(reason);
  });
});
