import { pedalAgain, pedalNext } from './registry.ts';

/** What of a key press decides the command; a KeyboardEvent has all of it. */
export type KeyStroke = Pick<KeyboardEvent, 'key' | 'code' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>;

const againCodes = ['PageUp', 'Backspace'] as const;

/** The name under which a stroke is found in the register. */
export function strokeName(stroke: KeyStroke, pedalKey: string): string {
  const bare = !stroke.ctrlKey && !stroke.metaKey && !stroke.altKey;
  if (bare && (stroke.code === pedalKey || stroke.code === 'Space' || stroke.code === 'PageDown')) return pedalNext;
  if (bare && againCodes.some((code) => code === stroke.code)) return pedalAgain;
  const letter = stroke.key.length === 1 ? stroke.key.toUpperCase() : stroke.key;
  const control = stroke.ctrlKey || stroke.metaKey ? 'Ctrl+' : '';
  return `${control}${control !== '' && stroke.shiftKey ? 'Shift+' : ''}${letter}`;
}
