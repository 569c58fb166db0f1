import { create } from 'zustand';
import type { Assembly } from '../../../../shared/job/records/build.ts';
import type { HeldDraft } from '../../../parts/useDraft.ts';
import { blankMark, type MarkDraft, markDraftOf, markResultOf } from './draft.ts';

/** Marks that are being read, by assembly: a look at a photo or at the how-to must not lose what was drawn. */
const useDrafts = create<{ readonly drafts: Readonly<Record<string, MarkDraft>> }>()(() => ({ drafts: {} }));

const begun = (assembly: Assembly): MarkDraft => {
  const kept = markResultOf(assembly);
  return kept === undefined ? blankMark(assembly) : markDraftOf(kept);
};

/** The draft of an assembly, else what its notebook holds; touched as soon as it differs from that. */
export function useMarkDraft(assembly: Assembly): HeldDraft<MarkDraft> {
  const draft = useDrafts(({ drafts }) => drafts[assembly.id]);
  return {
    draft: draft ?? begun(assembly),
    change: (some) => changeMarkDraft(assembly, (now) => ({ ...now, ...some })),
    touched: draft !== undefined,
  };
}

export const changeMarkDraft = (assembly: Assembly, change: (draft: MarkDraft) => MarkDraft): void =>
  useDrafts.setState(({ drafts }) => ({
    drafts: { ...drafts, [assembly.id]: change(drafts[assembly.id] ?? begun(assembly)) },
  }));

/** Puts the draft away: it was kept in the notebook. */
export const putDraftAway = (assembly: Assembly): void =>
  useDrafts.setState(({ drafts }) => ({
    drafts: Object.fromEntries(Object.entries(drafts).filter(([id]) => id !== assembly.id)),
  }));
