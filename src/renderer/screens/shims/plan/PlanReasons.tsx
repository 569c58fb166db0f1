import { inUnits } from '../../../../shared/presentation/words/inUnits.ts';
import { isNone } from '../../../../shared/basics/result.ts';
import type { PlanAnswer } from '../../../../shared/axle/plan/answer.ts';
import type { Foreseen } from '../../../../shared/job/planning/foresee.ts';
import { useSession } from '../../../stores/session.ts';
import { expectedLines } from './words.ts';

interface PlanReasonsProps {
  readonly answer: PlanAnswer | undefined;
  readonly notes: readonly string[];
  readonly foreseen: Foreseen | undefined;
}

/** What should be seen then, why, and what to be careful about: one plain sentence each. */
export function PlanReasons({ answer, notes, foreseen }: PlanReasonsProps) {
  const units = useSession((session) => session.units);
  const promised = answer === undefined || !isNone(answer.expected);
  const expected = foreseen === undefined || !promised ? [] : expectedLines(foreseen.expected, units);
  const warnings = [...(answer?.warnings ?? []), ...notes];
  return (
    <div className="plan__reasons">
      <Sentences title={answer?.decision === 'repaint' ? 'Paint it so' : 'Look first'} sentences={answer?.look ?? []} />
      <Sentences title="To be seen then" sentences={expected} />
      <Sentences title="Why" sentences={answer?.reasons ?? []} />
      <Sentences title="To be known" sentences={warnings} />
    </div>
  );
}

function Sentences({ title, sentences }: { readonly title: string; readonly sentences: readonly string[] }) {
  const units = useSession((session) => session.units);
  if (sentences.length === 0) return undefined;
  return (
    <section>
      <h2 className="plan__heading">{title}</h2>
      <ul className="plan__list">
        {sentences.map((sentence) => (
          <li key={sentence}>{inUnits(sentence, units)}</li>
        ))}
      </ul>
    </section>
  );
}
