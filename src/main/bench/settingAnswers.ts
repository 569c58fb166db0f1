import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { ok } from '../../shared/basics/result.ts';
import type { SettingStore } from '../store/settings.ts';
import { type Desk, instant } from './writing.ts';

/** Settings are the bench's: whatever door a screen came in by, it finds them as the last one left them. */
export function settingAnswers(
  desk: Pick<Desk, 'outlet' | 'clock'> & { readonly settings: SettingStore },
): Pick<BenchAnswers, 'settings.read' | 'settings.change'> {
  return {
    'settings.read': async () => ok(desk.settings.read()),
    'settings.change': async ({ change }) => {
      const written = desk.settings.change(change, instant(desk.clock));
      if (!written.ok) return written;
      desk.outlet.tell('settings-changed', written.value);
      return ok(desk.settings.read());
    },
  };
}
