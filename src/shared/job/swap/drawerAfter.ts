import { type Build, packAt, type Swap } from '../records/build.ts';
import { insideOf } from '../../basics/recorded.ts';
import { counted, type ShimDrawer, useOf } from '../records/drawer.ts';

/** The drawer once a swap card was followed: the shims that went in are taken out of it, those that came out go back. */
export function drawerAfter(build: Build, swap: Swap, drawer: ShimDrawer): ShimDrawer {
  const before = build.assemblies.find(({ id }) => id === swap.assembly);
  return (swap.measured?.packs ?? []).reduce((now, { place, each }) => {
    const taken = counted(now, useOf(place), each.map(insideOf), -1);
    const back = before === undefined ? undefined : packAt(before, place);
    // Only shims measured one by one are sizes; a pack known as a whole is none.
    return back === undefined ? taken : counted(taken, useOf(place), back.each.map(insideOf), 1);
  }, drawer);
}
