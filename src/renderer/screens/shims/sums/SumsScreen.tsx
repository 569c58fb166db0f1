import type { Sum } from '../../../stores/route.ts';
import type { SumProps } from './sumProps.ts';
import { DepthSum } from './DepthSum.tsx';
import { NotchesSum } from './NotchesSum.tsx';
import { PreloadSum } from './PreloadSum.tsx';
import { SidesSum } from './SidesSum.tsx';
import '../../../parts/form.css';

/** What is worked out beside a trial from readings of tools that send nothing. */
export function SumsScreen({ build, assembly, sum }: SumProps & { readonly sum: Sum }) {
  if (sum === 'depth') return <DepthSum build={build} assembly={assembly} />;
  if (sum === 'preload') return <PreloadSum build={build} assembly={assembly} />;
  return build.makeUp?.caseAdjustment === 'threaded-adjusters' ? (
    <NotchesSum build={build} assembly={assembly} />
  ) : (
    <SidesSum build={build} assembly={assembly} />
  );
}
