import { setImmediate as afterEvents } from 'node:timers/promises';
import { mostListed } from '../../shared/contract/builds.ts';
import type { Sought } from '../../shared/job/shop/sought.ts';
import type { BuildSummary } from '../../shared/job/shop/summary.ts';
import { type Shop, summariseNow } from '../store/catchUp.ts';

/** So many summaries are made between two looks at the gauges. */
const atOnce = 4;

/**
 * A page of the builds sought that can be read, the one written in last first. What has no summary yet is read for it, a few
 * builds at a time, so that the gauges are heard meanwhile.
 */
export async function listedPage(
  shop: Pick<Shop, 'database' | 'notebooks' | 'buildList'>,
  sought: Sought,
  before?: string,
): Promise<BuildSummary[]> {
  const page: BuildSummary[] = [];
  for (let from = before; page.length < mostListed;) {
    const listed = shop.buildList.page(sought, mostListed, from);
    const behind = listed.filter(({ summary, problem }) => summary === undefined && problem === undefined);
    for (let first = 0; first < behind.length; first += atOnce) {
      summariseNow(
        shop,
        behind.slice(first, first + atOnce).map(({ build }) => build),
      );
      await afterEvents();
    }
    for (const { build, summary, problem } of listed) {
      const now = problem === undefined ? (summary ?? shop.buildList.summary(build)) : undefined;
      if (now !== undefined && page.length < mostListed) page.push(now);
    }
    from = listed.at(-1)?.build;
    if (listed.length < mostListed) break;
  }
  return page;
}
