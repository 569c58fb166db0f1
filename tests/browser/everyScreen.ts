import type { Page } from 'playwright';
import type { BenchService } from '../../src/shared/contract/contract.ts';
import { buildInTrial } from '../support/benchPage.ts';
import { goTo } from '../support/browser.ts';
import { onSleeve, readWithPlaces, type Standing } from '../support/specialBuilds.ts';
import { plugInPullScale, plugInUnclear } from '../support/specialGauges.ts';
import { screensOfTheShop, screensOfTheWayIn } from '../support/specialScreens.ts';

/**
 * Every screen by the route that leads to it: on a build in its first trial, and on others for what only they have. The bench
 * needs `portsAlike` for its list of ports. Ends with `end`.
 */
export async function everyScreen(service: BenchService, indicator: string) {
  const { build, trial } = await buildInTrial(service);
  const pullScale = await plugInPullScale(service);
  const routes = {
    ...screensOfTrial(build, trial),
    ...screensOfGauges(indicator, pullScale.id, await plugInUnclear(service)),
    ...screensElsewhere(await readWithPlaces(service), await onSleeve(service)),
    ...(await screensOfTheWayIn(service)),
    ...(await screensOfTheShop(service)),
  };
  return { routes, end: pullScale.end };
}

const screensOfGauges = (indicator: string, pullScale: string, unclear: string) =>
  ({
    'just measure': { at: 'just-measure' },
    'a gauge': { at: 'gauges', gauge: indicator },
    ports: { at: 'gauges' },
    'new gauge': { at: 'gauges', begin: 'serial:' },
    'new gauge over Modbus': { at: 'gauges', begin: 'modbus:' },
    'gauge record': { at: 'gauges', gauge: indicator, doing: 'record' },
    learn: { at: 'gauges', gauge: indicator, doing: 'learn' },
    'daily check': { at: 'gauges', gauge: indicator, doing: 'check' },
    'which port': { at: 'gauges', gauge: unclear },
    'pull scale': { at: 'gauges', gauge: pullScale },
  }) as const;

const screensElsewhere = (places: Standing, sleeve: Standing) =>
  ({
    together: { at: 'check', ...places, check: 'ring-gear-runout' },
    're-clock': { at: 'check', ...places, check: 'flange-runout' },
    sleeve: { at: 'check', ...sleeve, check: 'pinion-torque' },
  }) as const;

function screensOfTrial(build: string, trial: string) {
  const check = (name: string) => ({ at: 'check', build, assembly: trial, check: name });
  return {
    builds: { at: 'builds' },
    axle: { at: 'axle', build },
    limits: { at: 'limits', build },
    notes: { at: 'notes', build },
    stand: { at: 'build', build },
    assemble: { at: 'assemble', build, phase: 'trial' },
    settle: { at: 'settle', build, assembly: trial, check: 'backlash' },
    'set numbers': check('set-numbers'),
    shims: check('shims'),
    feeler: check('cup-seat'),
    typed: check('cap-torque'),
    runout: check('ring-gear-runout'),
    torque: check('pinion-torque'),
    backlash: check('backlash'),
    mark: check('mark'),
    photo: { at: 'photo', build, assembly: trial, flank: 'drive', place: 0 },
    meaning: { at: 'meaning', build, assembly: trial },
    painting: { at: 'painting', build, assembly: trial },
    cut: { at: 'cut', build },
    'all trials': { at: 'trials', build },
    plan: { at: 'plan', build },
    'earlier builds': { at: 'experience', build },
    drawer: { at: 'drawer', build },
    'depth worked out': { at: 'sums', build, assembly: trial, sum: 'depth' },
    'sides worked out': { at: 'sums', build, assembly: trial, sum: 'sides' },
    'preload worked out': { at: 'sums', build, assembly: trial, sum: 'preload' },
    certificate: { at: 'certificate', build },
  } as const;
}

/** Goes to a screen and makes sure that it is there and not an empty one. */
export async function show(page: Page, route: object): Promise<void> {
  await goTo(page, route);
  await page.locator('main h1').waitFor();
}
