import {
  type SettingName,
  settingNames,
  settingsSchema,
  someSettingsSchema,
  type SomeSettings,
} from '../../shared/contract/settings.ts';
import type { Result } from '../../shared/basics/result.ts';
import type { Database } from './database.ts';
import { readable, type Skip, writable } from './recordRows.ts';

/** What the shop has set at this bench. */
export interface SettingStore {
  /** Those that were ever changed and can be read. */
  read(): SomeSettings;
  /** Writes all of the change or nothing of it, and gives what was written. */
  change(change: SomeSettings, at: string): Result<SomeSettings>;
}

interface Row {
  readonly name: string;
  readonly value: string;
}

const isKnown = (name: string): name is SettingName => settingNames.some((one) => one === name);

export function openSettings({ sql, write }: Database, skip: Skip): SettingStore {
  const all = sql.prepare<[], Row>('SELECT name, value FROM setting ORDER BY name');
  const put = sql.prepare<[string, string, string]>(
    'INSERT INTO setting (name, at, value) VALUES (?, ?, ?) ON CONFLICT (name) DO UPDATE SET at = excluded.at, value = excluded.value',
  );
  const settingOf = ({ name, value }: Row): readonly [string, unknown][] => {
    // A later version's setting is none of ours; it is left where it is.
    if (!isKnown(name)) return [];
    const read = readable<unknown>(settingsSchema.shape[name], () => JSON.parse(value), `The setting "${name}"`);
    if (read.ok) return [[name, read.value]];
    skip(`setting ${name}`, read.problem);
    return [];
  };
  return {
    read: () => someSettingsSchema.parse(Object.fromEntries(all.all().flatMap(settingOf))),
    change(change, at) {
      const checked = writable(someSettingsSchema, change, 'This setting');
      if (!checked.ok) return checked;
      return write(() => {
        for (const [name, value] of Object.entries(checked.value)) put.run(name, at, JSON.stringify(value));
        return checked.value;
      });
    },
  };
}
