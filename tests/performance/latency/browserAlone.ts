import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { chromium, type Page } from 'playwright';
import { browserArguments } from '../../support/browser.ts';

/** A browser that is left alone while something is measured in it. */
export interface BrowserAlone {
  /**
   * Has Playwright do something with the browser's one page and leaves it again. While Playwright is there it is told of
   * every message of every WebSocket, through the browser and into this process: at 400 a second that alone
   * would double what is to be measured.
   */
  with<Given>(act: (page: Page) => Promise<Given>): Promise<Given>;
  close(): Promise<void>;
}

export async function launchBrowserAlone(): Promise<BrowserAlone> {
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-browser-'));
  const child = spawn(
    process.env['CHROMIUM_PATH'] ?? chromium.executablePath(),
    [
      ...browserArguments,
      '--headless=new',
      '--hide-scrollbars',
      '--window-size=1280,800',
      '--disable-extensions',
      '--disable-component-extensions-with-background-pages',
      '--disable-default-apps',
      '--remote-debugging-port=0',
      `--user-data-dir=${folder}`,
      'about:blank',
    ],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
  const said = createInterface({ input: child.stderr });
  const door = await new Promise<string>((resolve, reject) => {
    said.on('line', (line) => {
      const [, link] = /^DevTools listening on (ws:.*)$/u.exec(line) ?? [];
      if (link !== undefined) resolve(link);
    });
    child.once('exit', (code) => reject(new Error(`the browser ended with ${code}`)));
  });
  return {
    async with(act) {
      const browser = await chromium.connectOverCDP(door);
      const page = browser.contexts()[0]?.pages()[0];
      if (page === undefined) throw new Error('the browser has no page');
      const given = await act(page);
      await browser.close();
      return given;
    },
    async close() {
      const ended = new Promise((resolve) => void child.once('exit', resolve));
      child.kill();
      await ended;
      rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
}
