import { type Build, packAt, type Swap } from '../../../../shared/job/records/build.ts';
import type { ShimDrawer } from '../../../../shared/job/records/drawer.ts';
import type { ShimPack } from '../../../../shared/job/records/measurement.ts';
import { shimPlaces } from '../../../../shared/axle/makeUp.ts';
import { drawerAfter } from '../../../../shared/job/swap/drawerAfter.ts';
import { saveDrawer } from '../../../stores/drawer.ts';
import { useNotebook, writeDeed } from '../../../stores/notebook.ts';
import { goToNextInstead } from '../../checks/check/goOn.ts';
import { usualAssembly } from '../../job/assemble/usual.ts';

interface OpenedWith {
  readonly drawer: ShimDrawer | undefined;
  /** Notches really turned, away positive; absent where the card counts none. */
  readonly turned: number | undefined;
}

/** Opens the trial a card leads to, with its shims filled in: the packs just measured, and those that stay. */
export async function openTrial(build: Build, swap: Swap, { drawer, turned }: OpenedWith): Promise<void> {
  const notches = turned === undefined ? {} : { notchesTurned: turned };
  const assembly = { ...usualAssembly('trial', build.makeUp), swap: swap.id, ...notches };
  if (!(await writeDeed({ kind: 'assembled', assembly }))) return;
  const opened = useNotebook.getState().build?.assemblies.at(-1);
  if (opened === undefined) return;
  const packs = packsOf(build, swap);
  if (packs.length > 0 && swap.measured !== undefined) {
    const { how } = swap.measured;
    await writeDeed({
      kind: 'measured',
      assembly: opened.id,
      check: 'shims',
      how,
      result: { kind: 'shims', packs: [...packs] },
    });
  }
  if (drawer !== undefined) await saveDrawer(drawerAfter(build, swap, drawer));
  goToNextInstead();
}

/** What was measured for the card, and what the trial before had at the places that stay. */
function packsOf(build: Build, swap: Swap): readonly ShimPack[] {
  const before = build.assemblies.find(({ id }) => id === swap.assembly);
  return shimPlaces.flatMap((place) => {
    const pack = swap.measured?.packs.find((one) => one.place === place) ?? (before && packAt(before, place));
    return pack === undefined ? [] : [pack];
  });
}
