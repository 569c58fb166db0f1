import type { Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { Made, Making } from './make.ts';

/** One backup at a time, and how far it has come. */
interface Run {
  /** Begins one, or joins the one that is being made. */
  make(into: string): Promise<Result<Made>>;
  stop(): void;
  /** 0 to 1 while one is being made. */
  readonly share: () => number | undefined;
  /** When one was begun last, seconds of the monotonic clock. */
  readonly tried_s: () => number;
}

interface RunOptions {
  readonly from: string;
  readonly clock: Clock;
  readonly make: (making: Making) => Promise<Result<Made>>;
  readonly onShare: () => void;
}

const tellEvery_s = 0.2;

export function createRun({ from, clock, make, onShare }: RunOptions): Run {
  let underWay: { readonly ending: AbortController; readonly made: Promise<Result<Made>> } | undefined;
  let share: number | undefined;
  let tried_s = Number.NEGATIVE_INFINITY;
  let told_s = Number.NEGATIVE_INFINITY;
  const onProgress = (now: number): void => {
    share = now;
    if (clock.monotonic_s() - told_s < tellEvery_s) return;
    told_s = clock.monotonic_s();
    onShare();
  };
  const begin = async (into: string, ending: AbortController): Promise<Result<Made>> => {
    try {
      return await make({ from, into, now_ms: clock.wall_ms(), signal: ending.signal, onProgress });
    } finally {
      underWay = undefined;
      share = undefined;
    }
  };
  return {
    make(into) {
      if (underWay !== undefined) return underWay.made;
      tried_s = clock.monotonic_s();
      share = 0;
      const ending = new AbortController();
      underWay = { ending, made: begin(into, ending) };
      onShare();
      return underWay.made;
    },
    stop: () => underWay?.ending.abort(),
    share: () => share,
    tried_s: () => tried_s,
  };
}
