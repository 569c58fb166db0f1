import type { Build } from '../../../../shared/job/records/build.ts';
import { stripOf } from '../../../../shared/job/checks/strip.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { goOn } from '../../checks/check/goOn.ts';
import { TrialColumn } from './TrialColumn.tsx';
import './trials.css';

/** Every trial beside the others: what was in it, what was read, both marks, and the way back to its shims. */
export function TrialsScreen({ build }: { readonly build: Build }) {
  const entries = stripOf(build);
  const ends = build.assemblies.some(({ phase }) => phase === 'final');
  return (
    <>
      <Stage title="All trials">
        {entries.length === 0 ? (
          <p className="quiet">Every putting-together of this axle will stand here, as found first.</p>
        ) : (
          <ol className="strip-of-trials" tabIndex={0} aria-label="All trials, side by side">
            {entries.map((entry, n) => (
              <TrialColumn
                key={entry.assembly.id}
                build={build}
                entry={entry}
                mayGoBack={!ends && entry.assembly.phase === 'trial' && n < entries.length - 1}
              />
            ))}
          </ol>
        )}
      </Stage>
      <Words title="Nothing is lost between trials" next={goOn(build)}>
        {entries.some(({ expected }) => expected !== undefined) ? (
          <p>The dashed outline is what the swap card expected.</p>
        ) : undefined}
        <p>
          Going back to a trial’s shims opens the next trial with them laid out as they were measured; measure the packs
          as you put them in.
        </p>
      </Words>
    </>
  );
}
