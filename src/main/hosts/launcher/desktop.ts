import { join } from 'node:path';

type Environment = Readonly<Record<string, string | undefined>>;

/** Whether a window can be shown: elsewhere than Linux always, on Linux with a display server. */
export const hasScreen = (platform: string, environment: Environment): boolean =>
  platform !== 'linux' || Boolean(environment['DISPLAY'] ?? environment['WAYLAND_DISPLAY']);

/** How this system opens a link in the person's own browser; undefined where there is no screen. */
export function browserCommand(
  platform: string,
  environment: Environment,
  link: string,
): { readonly program: string; readonly words: readonly string[] } | undefined {
  if (!hasScreen(platform, environment)) return undefined;
  if (platform === 'darwin') return { program: 'open', words: [link] };
  // rundll32 takes the link as one word; `start` would read the & of a link as the end of its command.
  if (platform === 'win32') return { program: 'rundll32', words: ['url.dll,FileProtocolHandler', link] };
  return { program: 'xdg-open', words: [link] };
}

/** Where the records live when nobody says otherwise: the place each system gives to a user's own data. */
export function dataFolder(platform: string, environment: Environment, home: string): string {
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Axlewright', 'data');
  if (platform === 'win32')
    return join(environment['APPDATA'] ?? join(home, 'AppData', 'Roaming'), 'Axlewright', 'data');
  return join(environment['XDG_DATA_HOME'] ?? join(home, '.local', 'share'), 'axlewright');
}
