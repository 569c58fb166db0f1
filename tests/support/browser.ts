import { type Browser, chromium, type Page } from 'playwright';

/** Debian's Chromium starts as root only without its sandbox; elsewhere the sandbox stays on. */
const asRoot = process.getuid?.() === 0;

/** Chromium without its own talk to the network, and without a software renderer that would drop frames. */
export function launchBrowser(): Promise<Browser> {
  const own = process.env['CHROMIUM_PATH'];
  return chromium.launch({ ...(own === undefined ? {} : { executablePath: own }), args: [...browserArguments] });
}

export const browserArguments: readonly string[] = [
  ...(asRoot ? ['--no-sandbox'] : []),
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=no-user-gesture-required',
  // A camera that shows a test picture, for whoever is allowed to see it.
  '--use-fake-device-for-media-stream',
];

export interface Look {
  readonly width: number;
  readonly height: number;
  readonly theme: 'light' | 'dark';
}

export const usualLook: Look = { width: 1280, height: 800, theme: 'light' };

/** A page on the bench behind `link`, with everything that went wrong on it collected. */
export async function openPage(
  browser: Browser,
  link: string,
  look: Look = usualLook,
): Promise<{ readonly page: Page; readonly faults: string[] }> {
  const context = await browser.newContext({
    viewport: { width: look.width, height: look.height },
    colorScheme: look.theme,
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  await page.goto(link);
  return { page, faults };
}

/** Goes straight to a screen, as the back button would: the route lies in the window's history. */
export async function goTo(page: Page, route: unknown): Promise<void> {
  await page.evaluate((state) => {
    history.pushState(state, '');
    dispatchEvent(new PopStateEvent('popstate', { state }));
  }, route);
  await page.evaluate(() => document.fonts.ready);
  await page.waitForTimeout(400);
}
