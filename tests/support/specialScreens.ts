import type { BenchService } from '../../src/shared/contract/contract.ts';
import { finishedBuilds } from './finishedBuilds.ts';
import { comingApart, endPlayRead, readyToStrip, stillTogether, withoutLimits } from './specialBuilds.ts';

/** An axle as it comes in: felt while still together, about to be stripped, coming apart, and without limits yet. */
export async function screensOfTheWayIn(service: BenchService) {
  const together = { at: 'check', ...(await stillTogether(service)) };
  return {
    'case-play': { ...together, check: 'case-tight' },
    'end-play': { ...together, check: 'case-end-play' },
    'end-play-recorded': { at: 'check', ...(await endPlayRead(service)), check: 'case-end-play' },
    'now-strip': { at: 'build', build: (await readyToStrip(service)).build },
    'coming-apart': { at: 'check', ...(await comingApart(service)), check: 'caps-marked' },
    'spec-sheets': { at: 'limits', ...(await withoutLimits(service)) },
  };
}

/** All the builds of the shop, two of them side by side, and one that was driven and comes back. */
export async function screensOfTheShop(service: BenchService) {
  const [one, other] = await finishedBuilds(service, 2);
  if (one === undefined || other === undefined) throw new Error('the finished builds were not written');
  return {
    shop: { at: 'shop' },
    compare: { at: 'compare', one: one.build, other: other.build },
    'road-test': { at: 'road-test', build: one.build },
    comeback: { at: 'builds', comebackOf: one.build },
  };
}
