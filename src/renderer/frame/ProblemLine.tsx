import { useEffect, useState } from 'react';
import { Button } from '../parts/Button.tsx';
import { StateMark } from '../parts/StateMark.tsx';
import { useBenchSeen } from '../stores/bench.ts';
import { putProblemAside, useProblem } from '../stores/problems.ts';
import { UndoneLine } from './UndoneLine.tsx';
import './problemLine.css';

/** What went wrong and what to do about it, until it is put aside; a bench out of reach stays until it is back. */
export function ProblemLine() {
  const problem = useProblem((seen) => seen.problem);
  const presence = useBenchSeen((seen) => seen.presence);
  const warnings = useBenchSeen((seen) => seen.about?.warnings);
  const isLate = useLate(presence === 'looking');
  const ended = useBenchSeen((seen) => seen.ended);
  if (ended)
    return (
      <Line
        sentence="The bench has been ended."
        remedy="What was recorded is kept. Close this window; Axlewright is started again as it was before."
      />
    );
  if (presence === 'away') {
    return (
      <Line
        sentence="The bench cannot be reached."
        remedy="This window looks for it and goes on by itself. If the bench was started anew, open the link it printed."
      />
    );
  }
  if (presence === 'looking' && isLate) return <Line {...notThere} />;
  const shown = problem ?? warnings?.[0];
  if (shown === undefined) return <UndoneLine />;
  return <Line sentence={shown.sentence} remedy={shown.remedy} {...(problem === undefined ? {} : { aside: true })} />;
}

/** A tab of an earlier run knocks with a word that counts no more, and would look for ever. */
const notThere = {
  sentence: 'The bench does not answer this page.',
  remedy: 'It may have been started anew since: open the link it printed last.',
};

/** A bench on this machine has answered long before, ms. */
const late_ms = 4000;

/** Whether something has gone on for too long. */
function useLate(goesOn: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    if (!goesOn) return undefined;
    const timer = setTimeout(() => setLate(true), late_ms);
    return () => {
      clearTimeout(timer);
      setLate(false);
    };
  }, [goesOn]);
  return late;
}

function Line({
  sentence,
  remedy,
  aside = false,
}: {
  readonly sentence: string;
  readonly remedy: string;
  readonly aside?: boolean;
}) {
  return (
    <div className="problem-line" role="alert">
      <StateMark shape="outside" size={22} />
      <p className="problem-line__words">
        <strong>{sentence}</strong> {remedy}
      </p>
      {aside ? <Button onPress={putProblemAside}>Close</Button> : undefined}
    </div>
  );
}
