import type { Build } from '../../../../shared/job/records/build.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { SwapCard } from './SwapCard.tsx';
import './swap.css';

/** One swap card of the build. */
export function SwapScreen({ build, swap: id }: { readonly build: Build; readonly swap: string }) {
  const { makeUp } = build;
  const swap = build.swaps.find((one) => one.id === id);
  if (swap === undefined || makeUp === undefined) return <NoCard build={build} />;
  // Packs measured anew start the card afresh.
  const key = swap.measured?.at ?? 'first';
  return <SwapCard key={key} build={{ ...build, makeUp }} swap={swap} />;
}

const NoCard = ({ build }: { readonly build: Build }) => (
  <>
    <Stage title="Not there any more">
      <p>This swap card was struck through. What was written stays readable in the notebook.</p>
    </Stage>
    <Words
      title="Go on from the stand"
      next={{ words: 'Back to the stand', run: () => go({ at: 'build', build: build.id }) }}
    />
  </>
);
