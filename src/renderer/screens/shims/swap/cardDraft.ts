import { ok } from '../../../../shared/basics/result.ts';
import type { UnitSystem } from '../../../../shared/basics/show.ts';
import type { Swap } from '../../../../shared/job/records/build.ts';
import type { ShimDrawer } from '../../../../shared/job/records/drawer.ts';
import { wrong } from '../../../parts/draft.ts';
import type { QuantityDraft } from '../../../parts/quantity.ts';
import { readTool, type ToolDraft, toolErrors, usualTool } from '../../checks/typed/tool.ts';
import { measuredDrafts, readMeasured } from './measured.ts';

/** The packs of a card as they are being measured, one for each of its lines. */
export interface CardDraft {
  readonly packs: readonly QuantityDraft[];
  readonly tool: ToolDraft;
}

export const cardDraft = (swap: Swap, units: UnitSystem): CardDraft => ({
  packs: measuredDrafts(swap, units),
  tool: usualTool('length', units),
});

/** Every pack with how it was measured; what is wrong with a pack is said at its line while it is typed. */
export function readCard(swap: Swap, draft: CardDraft, drawer: ShimDrawer | undefined) {
  const packs = readMeasured(swap, draft.packs, drawer);
  const how = readTool(draft.tool, 'length');
  return packs !== undefined && how.ok ? ok({ how: how.value, packs: [...packs] }) : wrong(toolErrors(how));
}
