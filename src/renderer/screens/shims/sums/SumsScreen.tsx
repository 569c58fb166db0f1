import type { Build } from '../../../../shared/job/records/build.ts';
import type { Sum } from '../../../stores/route.ts';
import { DepthSum } from './DepthSum.tsx';
import { NotchesSum } from './NotchesSum.tsx';
import { PreloadSum } from './PreloadSum.tsx';
import { SidesSum } from './SidesSum.tsx';
import '../../../parts/form.css';

export interface SumProps {
  readonly build: Build;
  readonly assembly: string;
}

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
