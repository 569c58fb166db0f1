import type { EarlierBuild } from '../../../../shared/job/experience/earlier.ts';
import { withBuild } from '../../../../shared/job/experience/leftOut.ts';
import { dayText } from '../../../../shared/presentation/words/days.ts';
import { taughtWords, teachesWords } from '../../../../shared/presentation/words/experience.ts';
import type { Earlier } from '../../../planning/useEarlier.ts';
import { Button } from '../../../parts/Button.tsx';
import { changeSession, useSession } from '../../../stores/session.ts';

interface EarlierListProps {
  readonly earlier: Earlier;
  /** Backlash that the mesh model computes for each mm of the ring gear; undefined where it cannot. */
  readonly rate: number | undefined;
}

/** Every finished build that has something in common with this one; each can be left out. */
export const EarlierList = ({ earlier: { builds, lessons, leftOut }, rate }: EarlierListProps) => (
  <ul className="experience__builds">
    {builds?.map((one) => (
      <EarlierRow
        key={one.build.id}
        one={one}
        lesson={lessons.get(one.state)}
        rate={rate}
        leftOut={leftOut.includes(one.build.id)}
        onCount={(counts) => changeSession({ earlierLeftOut: withBuild(leftOut, one.build.id, counts) })}
      />
    ))}
  </ul>
);

interface EarlierRowProps {
  readonly one: EarlierBuild;
  readonly rate: number | undefined;
  readonly lesson: ReturnType<Earlier['lessons']['get']>;
  readonly leftOut: boolean;
  readonly onCount: (counts: boolean) => void;
}

function EarlierRow({ one: { build, closedAt, shares }, lesson, rate, leftOut, onCount }: EarlierRowProps) {
  const units = useSession((session) => session.units);
  const teaches = lesson === undefined || lesson.ok;
  return (
    <li className={`experience__build${leftOut ? ' experience__build--out' : ''}`}>
      <div className="experience__which">
        <p className="experience__title">{build.title}</p>
        <p className="quiet">
          {dayText(closedAt)}, {build.technician}: {teachesWords(shares)}
        </p>
        <p className="digits">{taughtWords(lesson, shares, { units, rate })}</p>
      </div>
      {teaches ? (
        <Button onPress={() => onCount(leftOut)} more={build.title}>
          {leftOut ? 'Count it again' : 'Leave it out'}
        </Button>
      ) : undefined}
    </li>
  );
}
