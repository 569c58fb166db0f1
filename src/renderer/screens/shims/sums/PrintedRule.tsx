import {
  byPrintedRule,
  contradictionIn,
  type PrintedRule as Rule,
} from '../../../../shared/axle/arithmetic/etchedMark.ts';
import type { Length } from '../../../../shared/basics/quantity.ts';
import { showText } from '../../../../shared/basics/show.ts';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { useSession } from '../../../stores/session.ts';
import type { DepthDraft } from './depthDraft.ts';
import { numberIn } from './inputs.ts';

type Sign = '-1' | '0' | '1';
const signs: readonly Option<Sign>[] = [
  { value: '1', words: 'Add' },
  { value: '-1', words: 'Subtract' },
  { value: '0', words: 'Leave out' },
];
const numbers = { '-1': -1, '0': 0, '1': 1 } as const;

interface PrintedRuleProps {
  /** The marks as typed above. */
  readonly draft: DepthDraft;
  readonly shim: Length | undefined;
  /** What the shim becomes at the place where this axle has it. */
  readonly becomes: Length | undefined;
}

/**
 * A rule as some book prints it, held against the one thing that must hold, identical marks give no change, and then against
 * where this axle has its shim: a rule for a shim under the head goes the wrong way under a cage.
 */
export function PrintedRule({ draft, shim, becomes }: PrintedRuleProps) {
  const units = useSession((session) => session.units);
  const { draft: chosen, change } = useHeld<{ readonly old?: Sign; readonly next?: Sign }>(() => ({}));
  const { old, next } = chosen;
  const rule = old === undefined || next === undefined ? undefined : { old: numbers[old], new: numbers[next] };
  const shown = (value: Length): string => showText(value, 'length', units);
  return (
    <section className="form__part">
      <h2 className="form__heading">A printed rule, checked against itself</h2>
      <div className="form__choices">
        <Choice label="The old mark" value={old} onChange={(sign) => change({ old: sign })} options={signs} />
        <Choice label="The new mark" value={next} onChange={(sign) => change({ next: sign })} options={signs} />
      </div>
      {rule === undefined ? undefined : (
        <p role="status">{contradictionIn(rule) ?? heldAgainst(ruled(rule, draft, shim), becomes, shown)}</p>
      )}
    </section>
  );
}

/** What the rule makes of the shim; nothing while shim, marks or their unit are still to be given. */
function ruled(rule: Rule, { oldMark, newMark, unit, plusMeans }: DepthDraft, shim: Length | undefined) {
  const [old, next] = [numberIn(oldMark), numberIn(newMark)];
  if (shim === undefined || old === undefined || next === undefined || unit === undefined) return undefined;
  const mark = (value: number) => ({ value, unit, plusMeans: plusMeans ?? ('further out' as const) });
  return byPrintedRule(rule, shim, mark(old), mark(next));
}

/** Closer than this two sums are the same shim (own choice: the last digit of a micrometer), mm. */
const same_mm = 0.0015;

function heldAgainst(
  byRule: Length | undefined,
  becomes: Length | undefined,
  shown: (value: Length) => string,
): string {
  if (byRule === undefined || becomes === undefined)
    return 'Identical marks give no change by this rule, so it can be right for one place of the shim.';
  if (Math.abs(byRule - becomes) < same_mm)
    return `By this rule the shim becomes ${shown(byRule)}, as by the sentence below.`;
  return `By this rule the shim becomes ${shown(byRule)}, by the sentence below ${shown(becomes)}: the rule goes the wrong way for the place where this axle has its shim, or for what + means here.`;
}
