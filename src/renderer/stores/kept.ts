import { create } from 'zustand';
import { type Route, useRoute } from './route.ts';

/** What was just kept, said on the screen it led to: nothing is written without a word, and no page is needed for it. */
interface Kept {
  readonly sentence: string;
  /** The screen on which it is said; on the next one it is gone. */
  readonly on: Route;
}

export const useKept = create<{ readonly kept: Kept | undefined }>()(() => ({ kept: undefined }));

/** Says on the screen that is shown now what was kept on the one before. */
export const sayKept = (sentence: string): void =>
  useKept.setState({ kept: { sentence, on: useRoute.getState().route } });

/** The sentence for the screen that is shown, if it has one. */
export function useKeptSentence(): string | undefined {
  const kept = useKept((state) => state.kept);
  const route = useRoute((state) => state.route);
  return kept?.on === route ? kept.sentence : undefined;
}
