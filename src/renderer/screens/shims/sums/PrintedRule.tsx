import { contradictionIn } from '../../../../shared/axle/arithmetic/etchedMark.ts';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import { useHeld } from '../../../parts/useDraft.ts';

type Sign = '-1' | '0' | '1';
const signs: readonly Option<Sign>[] = [
  { value: '1', words: 'Add' },
  { value: '-1', words: 'Subtract' },
  { value: '0', words: 'Leave out' },
];
const numbers = { '-1': -1, '0': 0, '1': 1 } as const;

/** A rule as some book prints it, held against the one thing that must hold: identical marks give no change. */
export function PrintedRule() {
  const { draft, change } = useHeld<{ readonly old?: Sign; readonly next?: Sign }>(() => ({}));
  const { old, next } = draft;
  const wrong =
    old === undefined || next === undefined ? undefined : contradictionIn({ old: numbers[old], new: numbers[next] });
  return (
    <section className="form__part">
      <h2 className="form__heading">A printed rule, checked against itself</h2>
      <div className="form__choices">
        <Choice label="The old mark" value={old} onChange={(sign) => change({ old: sign })} options={signs} />
        <Choice label="The new mark" value={next} onChange={(sign) => change({ next: sign })} options={signs} />
      </div>
      {old === undefined || next === undefined ? undefined : (
        <p role="status">
          {wrong ?? 'Identical marks give no change by this rule, so it can be right for one place of the shim.'}
        </p>
      )}
    </section>
  );
}
