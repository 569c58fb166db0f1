import { create } from 'zustand';
import type { BenchClient } from '../../shared/contract/contract.ts';
import type { ShimDrawer } from '../../shared/job/records/drawer.ts';
import { ask } from './ask.ts';

/** The shims at hand, once they have been read. */
export const useDrawer = create<{ readonly drawer: ShimDrawer | undefined }>()(() => ({ drawer: undefined }));

const lay = (drawer: ShimDrawer): void => useDrawer.setState({ drawer });

export async function readDrawer(): Promise<void> {
  const drawer = await ask('drawer.read', {});
  if (drawer !== undefined) lay(drawer);
}

/** Writes the drawer as it is now; what stands on the screen is what the bench has kept. */
export async function saveDrawer(drawer: ShimDrawer): Promise<boolean> {
  const kept = await ask('drawer.save', { drawer });
  if (kept !== undefined) lay(kept);
  return kept !== undefined;
}

/** Another window counted the drawer. */
export const followDrawer = (client: BenchClient): (() => void) => client.hear('drawer-changed', lay);
