import type { Page } from 'playwright';
import { goTo } from '../support/browser.ts';

/** Every screen by the route that leads to it, on a build in its first trial. */
export function everyScreen(ids: { readonly build: string; readonly trial: string; readonly indicator: string }) {
  const { build, trial, indicator } = ids;
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
    drawer: { at: 'drawer', build },
    'depth worked out': { at: 'sums', build, assembly: trial, sum: 'depth' },
    'sides worked out': { at: 'sums', build, assembly: trial, sum: 'sides' },
    'preload worked out': { at: 'sums', build, assembly: trial, sum: 'preload' },
    certificate: { at: 'certificate', build },
    'just measure': { at: 'just-measure' },
    'a gauge': { at: 'gauges', gauge: indicator },
    ports: { at: 'gauges' },
  } as const;
}

/** Goes to a screen and makes sure that it is there and not an empty one. */
export async function show(page: Page, route: object): Promise<void> {
  await goTo(page, route);
  await page.locator('main h1').waitFor();
}
