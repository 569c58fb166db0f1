import type { ArchiveState } from '../../shared/contract/archive.ts';
import { Button } from '../parts/Button.tsx';
import { StateMark } from '../parts/StateMark.tsx';
import { bringBuild, useArchive } from '../stores/archive.ts';
import { timeWords } from '../words/days.ts';
import './problemLine.css';

/** That another bench wrote in the build that lies open, until what it wrote is here. */
export function BesideLine({ build }: { readonly build: string | undefined }) {
  const state = useArchive((seen) => seen.state);
  const others = state?.beside.filter((one) => one.build === build) ?? [];
  const [last] = others;
  if (build === undefined || last === undefined) return undefined;
  return (
    <div className="problem-line problem-line--said" role="status">
      <StateMark shape="too-close" size={22} />
      <p className="problem-line__words">
        <strong>{wroteWords(others, last)}</strong> What both wrote is kept. Bring theirs here, and agree who goes on.
      </p>
      <Button onPress={() => void bringBuild(build)}>Bring it here</Button>
    </div>
  );
}

type Beside = ArchiveState['beside'][number];

/** The one that wrote last stands first. */
function wroteWords(others: readonly Beside[], { bench, at }: Beside): string {
  if (others.length === 1) return `${bench} wrote in this build too, ${timeWords(at)}.`;
  const names = others.map((one) => one.bench);
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)} wrote in this build too, the last of it ${timeWords(at)}.`;
}
