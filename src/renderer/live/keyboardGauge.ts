import { ask } from '../stores/ask.ts';
import { isOpen, useGauges } from '../stores/gauges.ts';
import { keySorter, machine_ms, type Sorted } from './typedByGauge.ts';

/** The gauge that was plugged in as one that types; without one no key is touched. */
function typingGauge(): string | undefined {
  const { gauges, states } = useGauges.getState();
  return gauges?.find(({ id, link }) => link === 'keyboard:' && isOpen(states[id]))?.id;
}

/** Longer than any line: more than this without an end is noise, and kept as such. */
const mostHeld = 200;

/**
 * Catches what a gauge types like a keyboard, before any field or command sees it: each character is held for a moment,
 * and given back when it turns out to be a person's. So a reading never lands in a form. Listens only while such a gauge
 * is plugged in.
 */
export function catchTypedReadings(page: Window): void {
  let sorter = keySorter();
  let count = 0;
  let timer = 0;
  const given = new WeakSet<Event>();

  const settle = (sorted: Sorted | undefined, gauge: string): void => {
    if (sorted === undefined) return;
    count = 0;
    if ('person' in sorted) giveBack(sorted.person, given);
    // A cancel sign within makes the line unreadable, as it must be; it is counted and journaled with its characters.
    else void ask('gauges.typed', { gauge, text: 'line' in sorted ? `${sorted.line}\r` : `${sorted.broken}\u0018\r` });
  };

  const pressed = (event: KeyboardEvent): void => {
    const gauge = typingGauge();
    if (gauge === undefined || given.has(event) || event.repeat) return;
    const ends = event.key === 'Enter' || event.key === 'Tab';
    const isCharacter = event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
    if (!ends && !isCharacter) return;
    clearTimeout(timer);
    if (ends) {
      const sorted = sorter.end(event.timeStamp);
      settle(sorted, gauge);
      if (sorted === undefined || 'person' in sorted) return;
    } else {
      // The pedal's own key begins no gauge's line, and must not be late.
      if (event.key === ' ' && count === 0) return;
      settle(sorter.character(event.key, event.timeStamp), gauge);
      count += 1;
      if (count > mostHeld) sorter = keySorter();
      timer = page.setTimeout(() => settle(sorter.quiet(performance.now()), gauge), machine_ms + 5);
    }
    event.preventDefault();
    event.stopImmediatePropagation();
  };
  page.addEventListener('keydown', pressed, { capture: true });
}

/** A person's characters go where they would have gone: into the field that has the focus, or to the commands. */
function giveBack(text: string, given: WeakSet<Event>): void {
  const target = document.activeElement ?? document.body;
  if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) {
    // The one way to type into a field as a person does: with its events, at the caret, and with undo.
    document.execCommand('insertText', false, text);
    return;
  }
  for (const key of text) {
    const again = new KeyboardEvent('keydown', { key, code: codeOf(key), bubbles: true, cancelable: true });
    given.add(again);
    target.dispatchEvent(again);
  }
}

const codeOf = (key: string): string => (key === ' ' ? 'Space' : `Key${key.toUpperCase()}`);
