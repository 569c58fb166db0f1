import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok } from '../../shared/basics/result.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import type { ShimDrawerStore } from '../store/shimDrawer.ts';
import { type Desk, instant } from './writing.ts';

/** The shims at hand: read and written as a whole, because a person counts a drawer as a whole. */
export function drawerAnswers(
  desk: Desk & { readonly drawer: ShimDrawerStore },
): Pick<BenchAnswers, 'drawer.read' | 'drawer.save'> {
  return {
    'drawer.read': async () => ok(desk.drawer.read()),
    'drawer.save': async ({ drawer }) => {
      try {
        desk.drawer.save(drawer, instant(desk.clock));
      } catch (error) {
        return fail(databaseProblem(error, desk.place));
      }
      desk.outlet.tell('drawer-changed', drawer);
      return ok(drawer);
    },
  };
}
