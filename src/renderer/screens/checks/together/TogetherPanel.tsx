import { useMemo } from 'react';
import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import { gearTogether } from '../../../../shared/job/gear/together.ts';
import { isDescribed } from '../../../../shared/job/checks/readiness.ts';
import { togetherWords } from '../../../../shared/presentation/words/together.ts';
import { useSession } from '../../../stores/session.ts';
import './together.css';

interface TogetherPanelProps {
  readonly build: Build;
  readonly assembly: Assembly;
  /** Says nothing where it cannot be told. */
  readonly onlyTold?: boolean;
}

/** Whether backlash and runout fit together, once both are there. */
export function TogetherPanel({ build, assembly, onlyTold = false }: TogetherPanelProps) {
  const units = useSession((session) => session.units);
  const together = useMemo(() => (isDescribed(build) ? gearTogether(build, assembly) : undefined), [build, assembly]);
  if (together === undefined || (onlyTold && together.answer === 'cannot-tell')) return undefined;
  const { title, why } = togetherWords(together, units);
  return (
    <section className="together" aria-label="Do backlash and runout fit together">
      <h3 className="together__title">{title}</h3>
      <p>{why}</p>
    </section>
  );
}
