import { create } from 'zustand';
import type { Swap } from '../../../../shared/job/records/build.ts';

/** Notches really turned, by card, until its trial is opened with them: keeping the packs must not forget them. */
const useTurnedCards = create<{ readonly byCard: Readonly<Record<string, number>> }>()(() => ({ byCard: {} }));

/** What was turned for a card, away positive: as it asks for, until it is counted otherwise. Nothing for a card without notches. */
export function useTurned(swap: Swap): number | undefined {
  const counted = useTurnedCards(({ byCard }) => byCard[swap.id]);
  return swap.notches === undefined ? undefined : (counted ?? swap.notches);
}

export const setTurned = (swap: Swap, notches: number): void =>
  useTurnedCards.setState(({ byCard }) => ({ byCard: { ...byCard, [swap.id]: notches } }));
