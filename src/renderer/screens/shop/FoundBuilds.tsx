import { Checkbox } from 'react-aria-components';
import type { BuildSummary } from '../../../shared/contract/builds.ts';
import { Button } from '../../parts/Button.tsx';
import type { FoundBuilds as Found } from '../../stores/builds.ts';
import { go } from '../../stores/route.ts';
import { ownerWords, stageWords } from '../../words/builds.ts';
import { dayWords } from '../../words/days.ts';

interface FoundProps {
  readonly found: Found;
  readonly chosen: readonly string[];
  readonly onChoose: (build: string, isIn: boolean) => void;
}

/** The builds found, the one worked on last first, a line each. */
export function FoundBuilds({ found, chosen, onChoose }: FoundProps) {
  if (found.builds === undefined) return <p className="quiet">Reading the builds …</p>;
  return (
    <div className="shop__list">
      <table className="shop__builds">
        <thead>
          <tr>
            <th scope="col">Build</th>
            <th scope="col">Stands at</th>
            <th scope="col" className="shop__number">
              Trials
            </th>
            <th scope="col">Last worked on</th>
            <th scope="col">
              <span className="unseen">Compare</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {found.builds.map((build) => (
            <FoundRow key={build.id} build={build} isIn={chosen.includes(build.id)} onChoose={onChoose} />
          ))}
        </tbody>
      </table>
      {found.more === undefined ? undefined : <Button onPress={found.more}>Show earlier ones</Button>}
    </div>
  );
}

interface RowProps {
  readonly build: BuildSummary;
  readonly isIn: boolean;
  readonly onChoose: FoundProps['onChoose'];
}

function FoundRow({ build, isIn, onChoose }: RowProps) {
  const owner = ownerWords(build);
  return (
    <tr>
      <th scope="row">
        <Button look="quiet" onPress={() => go({ at: 'build', build: build.id })}>
          {build.title}
        </Button>
        {owner === '' ? undefined : <span className="shop__owner quiet">{owner}</span>}
      </th>
      <td>{stageWords(build)}</td>
      <td className="shop__number digits">{build.trials}</td>
      <td>
        {dayWords(build.lastEntryAt)} <span className="quiet">{build.technician}</span>
      </td>
      <td>
        <Checkbox
          className="shop__tick"
          aria-label={`Compare ${build.title}`}
          isSelected={isIn}
          onChange={(now) => onChoose(build.id, now)}
        >
          <span aria-hidden="true" className="shop__box" />
        </Checkbox>
      </td>
    </tr>
  );
}
