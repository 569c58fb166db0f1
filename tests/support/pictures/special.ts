import type { Browser, Page } from 'playwright';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { goTo, type Look, openPage } from '../browser.ts';
import { onSleeve, readWithPlaces } from '../specialBuilds.ts';
import { plugInPullScale, plugInUnclear } from '../specialGauges.ts';

interface SpecialPictures {
  readonly service: BenchService;
  readonly browser: Browser;
  readonly link: string;
  readonly indicator: string;
  readonly looks: Readonly<Record<string, Look>>;
  readonly take: (page: Page, name: string, look: string) => Promise<void>;
}

/** Screens for which something has to be different from the usual bench: other gauges, and builds that stand elsewhere. */
export async function takeSpecial({ service, browser, link, indicator, looks, take }: SpecialPictures): Promise<void> {
  const pullScale = await plugInPullScale(service);
  const unclear = await plugInUnclear(service);
  const places = await readWithPlaces(service);
  const sleeve = { at: 'check', ...(await onSleeve(service)), check: 'pinion-torque' };
  const screens = {
    'new-gauge': { at: 'gauges', begin: 'serial:' },
    'new-gauge-modbus': { at: 'gauges', begin: 'modbus:' },
    'gauge-record': { at: 'gauges', gauge: indicator, doing: 'record' },
    learn: { at: 'gauges', gauge: indicator, doing: 'learn' },
    'daily-check': { at: 'gauges', gauge: indicator, doing: 'check' },
    'which-port': { at: 'gauges', gauge: unclear },
    together: { at: 'check', ...places, check: 'ring-gear-runout' },
    're-clock': { at: 'check', ...places, check: 'flange-runout' },
    sleeve,
  };
  for (const [name, look] of Object.entries(looks)) {
    const { page, faults } = await openPage(browser, link, look);
    for (const [screen, route] of Object.entries(screens)) {
      await goTo(page, route);
      await take(page, screen, name);
    }
    await measureByPull(page);
    await take(page, 'pull-scale', name);
    if (faults.length > 0) throw new Error(`the page complained: ${faults.join(' | ')}`);
    await page.context().close();
  }
  await pullScale.end();
}

/** The torque of the pinion, with the pull scale in place of the gauge that reads it itself. */
async function measureByPull(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Gauge$/u }).click();
  await page.getByRole('option', { name: 'Pull scale' }).click();
  await page.locator('.readout .live__digits', { hasText: '1.86' }).waitFor();
  await page.waitForTimeout(1500);
}
