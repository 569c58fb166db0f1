import { useSession } from '../stores/session.ts';
import { commandFor } from './registry.ts';
import { strokeName } from './strokes.ts';

/** Letters typed into a field, and keys a list or slider lives by, are never commands. */
const typing = 'input, textarea, select, [contenteditable], [role="slider"], [role="listbox"], [role="radio"]';
const pressable = 'button, a[href], [role="button"], summary';

/**
 * After a click the button keeps the focus, and the pedal's Space would press it again. So Space belongs to the
 * focused button only for someone who got there by keyboard.
 */
let byPointer = false;

function mayRun(event: KeyboardEvent): boolean {
  const target = event.target instanceof Element ? event.target : document.body;
  if (target.closest(typing) !== null) return isFunctionKey(event);
  if (document.querySelector('[role="dialog"]') !== null) return event.key === 'Escape';
  return event.code !== 'Space' || byPointer || target.closest(pressable) === null;
}

/**
 * Page Down in a one-line field does nothing of its own, and a slider has its arrows: whoever has just moved the handle of a
 * mark presses the pedal next, and its stroke must not be lost.
 */
const isFunctionKey = (event: KeyboardEvent): boolean => /^(F\d+|PageDown|PageUp)$/u.test(event.code);

function pressed(event: KeyboardEvent): void {
  if (['Tab', 'ArrowUp', 'ArrowDown', 'ArrowLeft', 'ArrowRight'].includes(event.key)) byPointer = false;
  if (event.repeat || event.defaultPrevented || !mayRun(event)) return;
  const command = commandFor(strokeName(event, useSession.getState().pedalKey));
  if (command === undefined) return;
  event.preventDefault();
  event.stopPropagation();
  command.run();
}

/** Listens before the buttons do, so that the pedal is heard whatever was clicked last. */
export function listenToKeys(page: Window): void {
  page.addEventListener('pointerdown', () => (byPointer = true), { capture: true });
  page.addEventListener('keydown', pressed, { capture: true });
}
