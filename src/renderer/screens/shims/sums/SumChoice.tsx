import { Choice } from '../../../parts/Choice.tsx';
import { goInstead, type Sum } from '../../../stores/route.ts';
import type { SumProps } from './sumProps.ts';

/** Which sum: what it is about, in the order in which an axle is set up. */
export function SumChoice({ build, assembly, sum }: SumProps & { readonly sum: Sum }) {
  const sides = build.makeUp?.caseAdjustment === 'threaded-adjusters' ? 'Adjusters' : 'Side shims';
  return (
    <Choice<Sum>
      bare
      label="What is worked out"
      value={sum}
      onChange={(other) => goInstead({ at: 'sums', build: build.id, assembly, sum: other })}
      options={[
        { value: 'depth', words: 'Depth' },
        { value: 'sides', words: sides },
        { value: 'preload', words: 'Preload' },
      ]}
    />
  );
}
