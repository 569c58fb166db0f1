import type { CheckState } from '../../../../shared/job/checks/readiness.ts';
import { StateMark } from '../../../parts/StateMark.tsx';
import { dayWords } from '../../../words/days.ts';

/** What was let through with a reason; it stands on the certificate too. */
export function Overridden({ states }: { readonly states: readonly CheckState[] }) {
  const overridden = states.flatMap((state) =>
    state.override === undefined ? [] : [{ ...state, override: state.override }],
  );
  if (overridden.length === 0) return undefined;
  return (
    <ul className="in-the-way">
      {overridden.map(({ check, override }) => (
        <li key={check.id} className="in-the-way__one">
          <StateMark shape="overridden" size={20} />
          <span className="in-the-way__words">
            {check.title}, overridden by {override.by} on {dayWords(override.at)}: {override.reason}
          </span>
        </li>
      ))}
    </ul>
  );
}
