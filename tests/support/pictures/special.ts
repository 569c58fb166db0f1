import type { Page } from 'playwright';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { goTo } from '../browser.ts';
import { onSleeve, readWithPlaces } from '../specialBuilds.ts';
import { plugInPullScale, plugInUnclear } from '../specialGauges.ts';
import { screensOfTheShop, screensOfTheWayIn } from '../specialScreens.ts';

type Special = Awaited<ReturnType<typeof specialScreens>>;

/** Screens for which something has to be different from the usual bench: other gauges, and builds that stand elsewhere. */
export async function specialScreens(service: BenchService, indicator: string) {
  const pullScale = await plugInPullScale(service);
  const unclear = await plugInUnclear(service);
  const places = await readWithPlaces(service);
  const sleeve = { at: 'check', ...(await onSleeve(service)), check: 'pinion-torque' };
  const routes: Readonly<Record<string, object>> = {
    'new-gauge': { at: 'gauges', begin: 'serial:' },
    'new-gauge-modbus': { at: 'gauges', begin: 'modbus:' },
    'gauge-record': { at: 'gauges', gauge: indicator, doing: 'record' },
    learn: { at: 'gauges', gauge: indicator, doing: 'learn' },
    'daily-check': { at: 'gauges', gauge: indicator, doing: 'check' },
    'which-port': { at: 'gauges', gauge: unclear },
    together: { at: 'check', ...places, check: 'ring-gear-runout' },
    're-clock': { at: 'check', ...places, check: 'flange-runout' },
    sleeve,
    ...(await screensOfTheWayIn(service)),
    ...(await screensOfTheShop(service)),
  };
  return { routes, sleeve, end: pullScale.end };
}

/**
 * Takes them on a page of one look.
 * @param wants whether somebody asked for this screen
 */
export async function takeSpecial(
  { routes, sleeve }: Special,
  page: Page,
  wants: (name: string) => boolean,
  take: (name: string) => Promise<void>,
): Promise<void> {
  for (const [screen, route] of Object.entries(routes).filter(([name]) => wants(name))) {
    await goTo(page, route);
    await take(screen);
  }
  if (wants('pull-scale')) {
    await goTo(page, sleeve);
    await measureByPull(page);
    await take('pull-scale');
  }
  if (wants('settings')) {
    await page.getByRole('button', { name: 'Settings' }).click();
    await page.getByRole('dialog').waitFor();
    await take('settings');
  }
}

/** The torque of the pinion, with the pull scale in place of the gauge that reads it itself. */
async function measureByPull(page: Page): Promise<void> {
  await page.getByRole('button', { name: /Gauge$/u }).click();
  await page.getByRole('option', { name: 'Pull scale' }).click();
  await page.locator('.readout .live__digits', { hasText: '1.86' }).waitFor();
  await page.waitForTimeout(1500);
}
