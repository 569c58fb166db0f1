import type { BenchAnswers } from '../../shared/contract/contract.ts';
import type { ShimDrawerStore } from '../store/shimDrawer.ts';
import { type Desk, instant } from './writing.ts';

/** The shims at hand: read and written as a whole, because a person counts a drawer as a whole. */
export function drawerAnswers(
  desk: Desk & { readonly drawer: ShimDrawerStore },
): Pick<BenchAnswers, 'drawer.read' | 'drawer.save'> {
  return {
    'drawer.read': async () => desk.drawer.read(),
    'drawer.save': async ({ drawer }) => {
      const saved = desk.drawer.save(drawer, instant(desk.clock));
      if (saved.ok) desk.outlet.tell('drawer-changed', saved.value);
      return saved;
    },
  };
}
