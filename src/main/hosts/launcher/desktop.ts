import { isAbsolute, join } from 'node:path';

export type Environment = Readonly<Record<string, string | undefined>>;

/** Whether a window can be shown: elsewhere than Linux always, on Linux with a display server. */
export const hasScreen = (platform: string, environment: Environment): boolean =>
  platform !== 'linux' || Boolean(environment['DISPLAY'] ?? environment['WAYLAND_DISPLAY']);

/** Where the records live when nobody says otherwise: the place each system gives to a user's own data. */
export function dataFolder(platform: string, environment: Environment, home: string): string {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Axlewright', 'data');
  if (platform === 'win32')
    return join(environment['APPDATA'] ?? join(home, 'AppData', 'Roaming'), 'Axlewright', 'data');
  // One that is relative is to be ignored (XDG Base Directory): the records would lie wherever the bench was started.
  const given = environment['XDG_DATA_HOME'] ?? '';
  return join(isAbsolute(given) ? given : join(home, '.local', 'share'), 'axlewright');
}
