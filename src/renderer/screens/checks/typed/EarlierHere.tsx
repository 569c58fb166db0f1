import { assemblyName, latest } from '../../../../shared/job/records/build.ts';
import { judgeCheck } from '../../../../shared/job/checks/judge.ts';
import { sheetFor } from '../../../../shared/job/checks/limitChanges.ts';
import { checkBrief } from '../../../../shared/presentation/words/answers.ts';
import { shapeOf } from '../../../../shared/presentation/words/standing.ts';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useSession } from '../../../stores/session.ts';
import type { CheckProps } from '../check/checkProps.ts';

/** As many as stand below the fields of the smallest screen without hiding them. */
const most = 3;

/** What the same check came to in the assemblies before: with it at hand a slip of the pen is seen at once. */
export function EarlierHere({ build, assembly, check }: CheckProps) {
  const units = useSession((session) => session.units);
  // Each pack has what lay there before beside its own field.
  if (check.method === 'shims') return undefined;
  const at = build.assemblies.findIndex(({ id }) => id === assembly.id);
  const rows = build.assemblies.slice(0, Math.max(0, at)).flatMap((one) => {
    const measured = latest(one, check.id);
    if (measured === undefined) return [];
    const judged = judgeCheck(check, measured, one, sheetFor(build, measured));
    const brief = checkBrief(check.id, measured.result, units, measured.how);
    return [{ id: one.id, name: assemblyName(one), brief, shape: shapeOf(judged) }];
  });
  if (rows.length === 0) return undefined;
  return (
    <ul className="typed__earlier typed__wide" aria-label="Earlier in this build">
      {rows
        .slice(-most)
        .reverse()
        .map(({ id, name, brief, shape }) => (
          <li key={id}>
            <StateMark shape={shape} size={20} />
            <span className="quiet">{name}</span>
            <span className="typed__before digits">{brief}</span>
          </li>
        ))}
    </ul>
  );
}
