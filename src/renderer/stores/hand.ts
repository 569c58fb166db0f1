import { create } from 'zustand';

/** The simulated hand as the screen has it; on a real bench there is none, and nothing is offered. */
interface HandSeen {
  /** How many buttons offer it and have not been pressed yet. */
  readonly offered: number;
  /** How many of its movements are under way. */
  readonly atWork: number;
}

export const useHand = create<HandSeen>()(() => ({ offered: 0, atWork: 0 }));

/** A button offers the hand from now on, until the returned function is called. */
export function offerHand(): () => void {
  useHand.setState(({ offered }) => ({ offered: offered + 1 }));
  return () => useHand.setState(({ offered }) => ({ offered: offered - 1 }));
}

/** Says that the hand is at work for as long as it is. */
export async function whileAtWork(move: () => Promise<unknown>): Promise<void> {
  useHand.setState(({ atWork }) => ({ atWork: atWork + 1 }));
  try {
    await move();
  } finally {
    useHand.setState(({ atWork }) => ({ atWork: atWork - 1 }));
  }
}
