import { useEffect, useState } from 'react';
import { assemblyName } from '../../../../shared/job/records/build.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { heldOver } from '../../../parts/heldOver.ts';
import { useDraft } from '../../../parts/useDraft.ts';
import { readDrawer, useDrawer } from '../../../stores/drawer.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { PrintSlip } from '../../certificate/PrintSlip.tsx';
import { useSession } from '../../../stores/session.ts';
import { withToolEntered } from '../../checks/typed/enterTool.ts';
import { type CardDraft, cardDraft, readCard } from './cardDraft.ts';
import type { CardProps } from './cardProps.ts';
import type { CardStanding } from './cardStanding.ts';
import { faultsIn, readMeasured } from './measured.ts';
import { SimulatedPacks } from './SimulatedPacks.tsx';
import { SwapLines } from './SwapLines.tsx';
import { SwapWords } from './SwapWords.tsx';

/** Packs that are typed and not kept yet, while the drawer is looked into. */
const drafts = heldOver<CardDraft>();

/** What comes out, what goes in and where, and what should be seen then; the pack is measured here, before assembly. */
export function SwapCard({ build, swap }: CardProps) {
  const units = useSession((session) => session.units);
  const drawer = useDrawer((seen) => seen.drawer);
  useEffect(() => void readDrawer(), []);
  const [begun] = useState(() => cardDraft(swap, units));
  const { draft, change, errors, submit } = useDraft(
    drafts.use(swap.id, () => begun),
    {
      read: (now) => readCard(swap, now, drawer),
      keep: async ({ how, packs }) => {
        const tool = await withToolEntered(how, 'length');
        // Written, the card begins afresh from the notebook, and at once.
        drafts.forget(swap.id);
        return writeDeed({ kind: 'packs-measured', swap: swap.id, how: tool, packs });
      },
    },
  );
  const faults = faultsIn(swap, draft.packs, units);
  const trial = build.assemblies.find(({ id }) => id === swap.assembly);
  const standing: CardStanding = {
    opened: build.assemblies.find((one) => one.swap === swap.id),
    fault: faults.find((fault) => fault !== undefined),
    kept: swap.lines.length === 0 || (swap.measured !== undefined && draft.packs === begun.packs),
    all: readMeasured(swap, draft.packs, drawer) !== undefined,
  };
  return (
    <>
      <Stage
        title={`Swap card${trial === undefined ? '' : ` after ${assemblyName(trial).toLowerCase()}`}`}
        aside={
          <div className="measure__set-up">
            {standing.kept ? undefined : <SimulatedPacks swap={swap} />}
            <PrintSlip build={build.id} slip={{ kind: 'swap-card', swap: swap.id }}>
              Print
            </PrintSlip>
            <Button onPress={() => go({ at: 'drawer', build: build.id })}>Shims at hand</Button>
          </div>
        }
      >
        <SwapLines
          build={build}
          swap={swap}
          drawer={drawer}
          draft={draft}
          faults={faults}
          errors={errors}
          onChange={change}
          keep={submit}
        />
      </Stage>
      <SwapWords build={build} swap={swap} standing={standing} keep={submit} />
    </>
  );
}
