import { settingNames, settingsSchema, type SomeSettings } from '../../shared/contract/settings.ts';

/** Where a page kept its settings before the bench did. */
const place = 'axlewright-session';

/** The settings this page kept by itself once, each that can still be read. */
export function earlierSettings(): SomeSettings {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(place) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return {};
    const fields = new Map<string, unknown>(Object.entries(kept));
    return Object.fromEntries(
      settingNames.flatMap((name) => {
        const read = settingsSchema.shape[name].safeParse(fields.get(name));
        return read.success ? [[name, read.data]] : [];
      }),
    );
  } catch {
    // A page without storage, or something else in it: there is nothing to take over.
    return {};
  }
}

export function forgetEarlierSettings(): void {
  try {
    localStorage.removeItem(place);
  } catch {
    // Without storage nothing was kept.
  }
}
