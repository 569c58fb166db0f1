import { describe, expect, it } from 'vitest';
import { enter, commandFor, commandsNow, pedalAgain, pedalNext } from '../../../../src/renderer/commands/registry.ts';
import { type KeyStroke, strokeName } from '../../../../src/renderer/commands/strokes.ts';

const stroke = (key: string, code: string, held: Partial<KeyStroke> = {}): KeyStroke => ({
  key,
  code,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
});

describe('what a key press is called', () => {
  it('means next by Space, Page Down and the pedal’s own key', () => {
    expect(strokeName(stroke(' ', 'Space'), 'F13')).toBe(pedalNext);
    expect(strokeName(stroke('PageDown', 'PageDown'), 'F13')).toBe(pedalNext);
    expect(strokeName(stroke('F13', 'F13'), 'F13')).toBe(pedalNext);
    expect(strokeName(stroke('F14', 'F14'), 'F13')).toBe('F14');
  });

  it('means again by Page Up and Backspace', () => {
    expect(strokeName(stroke('PageUp', 'PageUp'), 'PageDown')).toBe(pedalAgain);
    expect(strokeName(stroke('Backspace', 'Backspace'), 'PageDown')).toBe(pedalAgain);
  });

  it('is a letter whatever its case, and a held key goes before it', () => {
    expect(strokeName(stroke('m', 'KeyM'), 'PageDown')).toBe('M');
    expect(strokeName(stroke('z', 'KeyZ', { ctrlKey: true }), 'PageDown')).toBe('Ctrl+Z');
    expect(strokeName(stroke('Z', 'KeyZ', { metaKey: true, shiftKey: true }), 'PageDown')).toBe('Ctrl+Shift+Z');
    expect(strokeName(stroke(' ', 'Space', { ctrlKey: true }), 'PageDown')).not.toBe(pedalNext);
  });
});

describe('the register of commands', () => {
  it('gives a key to what was entered last and back when that leaves', () => {
    const ran: string[] = [];
    const leaveFrame = enter({ key: 'M', title: 'Frame', run: () => ran.push('frame') });
    const leaveStage = enter({ key: 'M', title: 'Stage', run: () => ran.push('stage') });
    commandFor('M')?.run();
    leaveStage();
    commandFor('M')?.run();
    expect(commandsNow().map(({ title }) => title)).toEqual(['Frame']);
    leaveFrame();
    expect(commandFor('M')).toBeUndefined();
    expect(ran).toEqual(['stage', 'frame']);
  });
});
