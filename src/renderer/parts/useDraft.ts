import { useState } from 'react';
import type { DraftRead } from './draft.ts';
import { goToFirstWrong } from './firstWrong.ts';

/** A draft while it is being filled in. */
export interface HeldDraft<Draft> {
  readonly draft: Draft;
  /** Changes some of its fields. */
  readonly change: (change: Partial<Draft>) => void;
  /** Whether it differs from what it began with. */
  readonly touched: boolean;
}

/** Holds a draft for as long as its screen is there. */
export function useHeld<Draft extends object>(start: () => Draft): HeldDraft<Draft> {
  const [begun] = useState(start);
  const [draft, setDraft] = useState(begun);
  const change = (some: Partial<Draft>): void => setDraft((now) => ({ ...now, ...some }));
  return { draft, change, touched: draft !== begun };
}

interface DraftOptions<Draft, Value, Errors extends object> {
  /** The value a draft stands for, or what is wrong with it; worked out with every change, so it has to be quick. */
  readonly read: (draft: Draft) => DraftRead<Value, Errors>;
  /** Writes the value down. Gives whether it was: then the next try starts with a clean slate. */
  readonly keep: (value: Value) => Promise<boolean>;
}

export interface DraftForm<Draft, Value, Errors extends object> extends HeldDraft<Draft> {
  readonly read: DraftRead<Value, Errors>;
  /** What is wrong, once it was tried: nobody is told of a field that has not been reached yet. */
  readonly errors: Partial<Errors>;
  readonly tried: boolean;
  /** Writes it down, or marks what is wrong and goes to the first of it. */
  readonly submit: () => void;
}

/**
 * The one way a form holds its draft, its errors and its reading. `held` is {@link useHeld}, or a draft that a store keeps
 * over a detour to another screen.
 */
export function useDraft<Draft, Value, Errors extends object>(
  held: HeldDraft<Draft>,
  { read, keep }: DraftOptions<Draft, Value, Errors>,
): DraftForm<Draft, Value, Errors> {
  const [tried, setTried] = useState(false);
  const now = read(held.draft);
  const write = async (value: Value): Promise<void> => {
    if (await keep(value)) setTried(false);
  };
  const submit = (): void => {
    setTried(true);
    if (now.ok) void write(now.value);
    else goToFirstWrong();
  };
  return { ...held, read: now, errors: tried && !now.ok ? now.errors : {}, tried, submit };
}
