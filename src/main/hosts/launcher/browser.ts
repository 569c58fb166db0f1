import { spawn, spawnSync } from 'node:child_process';
import { type Environment, hasScreen } from './desktop.ts';

interface BrowserCommand {
  readonly program: string;
  readonly words: readonly string[];
}

/** How this system opens an address in the person's own browser; undefined where there is no screen. */
export function browserCommand(
  platform: string,
  environment: Environment,
  address: string,
): BrowserCommand | undefined {
  if (!hasScreen(platform, environment)) return undefined;
  if (platform === 'darwin') return { program: 'open', words: [address] };
  // rundll32 takes the link as one word; `start` would read the & of a link as the end of its command.
  if (platform === 'win32') return { program: 'rundll32', words: ['url.dll,FileProtocolHandler', address] };
  return { program: 'xdg-open', words: [address] };
}

/** Browsers that can show one page as a window of its own, by the names Linux knows them by. */
const withAppWindows =
  /^(?:chromium|chromium-browser|google-chrome|google-chrome-stable|microsoft-edge|brave-browser)$/u;

/**
 * The same as a window without tabs, where the person's own browser has such.
 * @param preferred the menu entry of that browser, as the desktop names it.
 */
export function windowCommand(preferred: string, address: string): BrowserCommand | undefined {
  const program = preferred.trim().replace(/\.desktop$/u, '');
  return withAppWindows.test(program) ? { program, words: [`--app=${address}`] } : undefined;
}

const longest_ms = 2000;

/** The menu entry of the browser a person has chosen on Linux; empty where it cannot be told. */
const preferredBrowser = (): string =>
  spawnSync('xdg-settings', ['get', 'default-web-browser'], { encoding: 'utf8', timeout: longest_ms }).stdout ?? '';

/** Shows an address in the person's browser, in a window of its own where that is wanted and can be had. */
export function showInBrowser(address: string, asWindow: boolean): void {
  const { platform, env } = process;
  const usual = browserCommand(platform, env, address);
  if (usual === undefined) return;
  const own = asWindow && platform === 'linux' ? windowCommand(preferredBrowser(), address) : undefined;
  start(own ?? usual, own === undefined ? undefined : usual);
}

/** A program that is not there is tried by the other way, if there is one. */
function start({ program, words }: BrowserCommand, otherwise: BrowserCommand | undefined): void {
  spawn(program, words, { stdio: 'ignore', detached: true })
    .on('error', () => {
      if (otherwise !== undefined) start(otherwise, undefined);
    })
    .unref();
}
