import { useState } from 'react';
import { latest, type Measurement } from '../../../../shared/job/records/build.ts';
import type { CheckProps } from './checkProps.ts';

interface Way {
  /** What is recorded; undefined where nothing is, or where it is being taken anew. */
  readonly recorded: Measurement | undefined;
  /** Whether it is entered by hand, or heard from a gauge. */
  readonly byHand: boolean;
  /** Takes it anew, the way it was taken. */
  readonly anew: () => void;
  readonly enterByHand: () => void;
  readonly listen: () => void;
}

/** Where the screen of a check stands: at what was recorded, at a gauge, or at the fields. */
export function useWay({ assembly, check, anew }: Pick<CheckProps, 'assembly' | 'check' | 'anew'>): Way {
  const last = latest(assembly, check.id);
  const [anewAfter, setAnewAfter] = useState(anew);
  const [byHand, setByHand] = useState(last?.id === anew && last?.how.kind === 'typed');
  return {
    recorded: last?.id === anewAfter ? undefined : last,
    byHand,
    anew: () => {
      setAnewAfter(last?.id);
      setByHand(last?.how.kind === 'typed');
    },
    enterByHand: () => setByHand(true),
    listen: () => setByHand(false),
  };
}
