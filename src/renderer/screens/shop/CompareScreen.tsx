import { Fragment, useEffect, useState } from 'react';
import { type Build, type Measurement, readNotebook } from '../../../shared/job/records/build.ts';
import type { ShimPack } from '../../../shared/job/records/measurement.ts';
import { checkOf } from '../../../shared/job/checks/checks.ts';
import { compared, type ComparedAssembly } from '../../../shared/job/shop/compared.ts';
import { resultBrief, typedText } from '../../../shared/presentation/words/results.ts';
import type { UnitSystem } from '../../../shared/basics/show.ts';
import { Button } from '../../parts/Button.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { ask } from '../../stores/ask.ts';
import { go } from '../../stores/route.ts';
import { useSession } from '../../stores/session.ts';
import { dayWords } from '../../words/days.ts';
import { placeWords } from '../checks/typed/shims.ts';
import './shop.css';

/** A build that is looked at beside the one on the stand; undefined until it has been read. */
function useBuildRead(id: string): Build | undefined {
  const [build, setBuild] = useState<Build>();
  useEffect(() => {
    let there = true;
    void ask('builds.read', { build: id }).then(
      (notebook) => there && notebook !== undefined && setBuild(readNotebook(notebook.id, notebook.entries)),
    );
    return () => void (there = false);
  }, [id]);
  return build?.id === id ? build : undefined;
}

/** Two builds side by side: as found, every trial, and the final assembly, each figure beside the other's. */
export function CompareScreen({ one, other }: { readonly one: string; readonly other: string }) {
  const [left, right] = [useBuildRead(one), useBuildRead(other)];
  const back = { words: 'Back to the builds', run: () => go({ at: 'shop' }) };
  return (
    <>
      <Stage title="Two builds">
        {left === undefined || right === undefined ? (
          <p className="quiet">Reading the two builds …</p>
        ) : (
          <Beside one={left} other={right} />
        )}
      </Stage>
      <Words title="Side by side" next={back}>
        {left === undefined || right === undefined ? undefined : <Sums builds={[left, right]} />}
      </Words>
    </>
  );
}

const trialsOf = ({ assemblies }: Build): number => assemblies.filter(({ phase }) => phase === 'trial').length;

const Sums = ({ builds }: { readonly builds: readonly Build[] }) =>
  builds.map((build) => (
    <p key={build.id}>
      <strong>{build.title}</strong>: {trialsOf(build)} {trialsOf(build) === 1 ? 'trial' : 'trials'}, {build.technician}
      , {dayWords(build.startedAt)}.
    </p>
  ));

function Beside({ one, other }: { readonly one: Build; readonly other: Build }) {
  const units = useSession((session) => session.units);
  const parts = compared(one, other);
  if (parts.length === 0) return <p>Nothing has been measured in either of them yet.</p>;
  return (
    <table className="compare digits">
      <thead>
        <tr>
          <td />
          <Head build={one} />
          <Head build={other} />
        </tr>
      </thead>
      {parts.map((part) => (
        <Part key={part.name} part={part} units={units} />
      ))}
    </table>
  );
}

const Head = ({ build }: { readonly build: Build }) => (
  <th scope="col">
    <Button look="quiet" onPress={() => go({ at: 'build', build: build.id })}>
      {build.title}
    </Button>
  </th>
);

function Part({ part, units }: { readonly part: ComparedAssembly; readonly units: UnitSystem }) {
  const { assemblies, packs, checks } = part;
  return (
    <tbody>
      <tr className="compare__part">
        <th scope="rowgroup">{part.name}</th>
        <td className="quiet">{assemblies.one === undefined ? 'not assembled' : dayWords(assemblies.one.at)}</td>
        <td className="quiet">{assemblies.other === undefined ? 'not assembled' : dayWords(assemblies.other.at)}</td>
      </tr>
      {packs.map(({ place, one, other }) => (
        <Line key={place} name={placeWords[place]} one={packWords(one, units)} other={packWords(other, units)} />
      ))}
      {checks.map(({ check, one, other }) => (
        <Line key={check} name={checkOf(check).title} one={readWords(one, units)} other={readWords(other, units)} />
      ))}
    </tbody>
  );
}

const packWords = (pack: ShimPack | undefined, units: UnitSystem): string | undefined =>
  pack === undefined ? undefined : typedText(pack.pack, units);

const readWords = (read: Measurement | undefined, units: UnitSystem): string | undefined =>
  read === undefined ? undefined : resultBrief(read.result, units, read.how);

interface LineProps {
  readonly name: string;
  readonly one: string | undefined;
  readonly other: string | undefined;
}

const Line = ({ name, one, other }: LineProps) => (
  <tr>
    <th scope="row">{name}</th>
    {[one, other].map((words, side) => (
      <Fragment key={side === 0 ? 'one' : 'other'}>
        <td className={words === undefined ? 'quiet' : ''}>{words ?? 'not measured'}</td>
      </Fragment>
    ))}
  </tr>
);
