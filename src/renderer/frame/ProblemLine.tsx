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
  const shown = problem ?? warnings?.[0];
  if (shown === undefined) return <UndoneLine />;
  return <Line sentence={shown.sentence} remedy={shown.remedy} {...(problem === undefined ? {} : { aside: true })} />;
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
      {aside ? <Button onPress={putProblemAside}>Put aside</Button> : undefined}
    </div>
  );
}
