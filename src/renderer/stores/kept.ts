import { create } from 'zustand';
import { useNotebook } from './notebook.ts';
import { type Route, useRoute } from './route.ts';

/** What was just kept, said on the screen it led to: nothing is written without a word, and no page is needed for it. */
interface Kept {
  readonly sentence: string;
  /** The screen on which it is said; on the next one it is gone. */
  readonly on: Route;
  /** Entries in the notebook when it was said: with the next one, an undo among them, it is yesterday's word. */
  readonly entries: number | undefined;
}

const useKept = create<{ readonly kept: Kept | undefined }>()(() => ({ kept: undefined }));

/** Says on the screen that is shown now what was kept on the one before. */
export const sayKept = (sentence: string): void =>
  useKept.setState({ kept: { sentence, on: useRoute.getState().route, entries: entriesNow(useNotebook.getState()) } });

const entriesNow = ({ notebook }: ReturnType<typeof useNotebook.getState>): number | undefined =>
  notebook?.entries.length;

/** The sentence for the screen that is shown, if it has one. */
export function useKeptSentence(): string | undefined {
  const kept = useKept((state) => state.kept);
  const route = useRoute((state) => state.route);
  const entries = useNotebook(entriesNow);
  return kept?.on === route && kept.entries === entries ? kept.sentence : undefined;
}
