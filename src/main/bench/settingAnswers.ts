import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import { logoOf } from '../certificate/logo.ts';
import type { SettingStore } from '../store/settings.ts';
import { type Desk, instant } from './writing.ts';

/** Settings are the bench's: whatever door a screen came in by, it finds them as the last one left them. */
export function settingAnswers(
  desk: Pick<Desk, 'outlet' | 'clock'> & { readonly settings: SettingStore },
): Pick<BenchAnswers, 'settings.read' | 'settings.change'> {
  return {
    'settings.read': async () => ok(desk.settings.read()),
    'settings.change': async ({ change }) => {
      const { shopLogo = '' } = change;
      if (shopLogo !== '' && logoOf(shopLogo) === undefined) return fail(brokenLogo);
      const written = desk.settings.change(change, instant(desk.clock));
      if (!written.ok) return written;
      desk.outlet.tell('settings-changed', written.value);
      return ok(desk.settings.read());
    },
  };
}

const brokenLogo: Problem = {
  kind: 'broken-logo',
  field: 'shopLogo',
  sentence: 'This logo is not a whole JPEG, or is larger than the head of a page needs.',
  remedy: 'Choose the picture in Settings: it is brought to size there.',
};
