import { useState } from 'react';
import { meaningOf } from '../../../../shared/axle/mark/meaning.ts';
import { recordedBacklash } from '../../../../shared/job/checks/recordedBacklash.ts';
import { seenIn } from '../../../../shared/job/checks/marksSeen.ts';
import { type Assembly, assemblyName, type Build } from '../../../../shared/job/records/build.ts';
import { FlanksPicture, shown } from '../../../instruments/FlanksPicture.tsx';
import { Button } from '../../../parts/Button.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { goOn } from '../../checks/check/goOn.ts';
import { markResultOf } from '../../checks/mark/draft.ts';
import { Beside } from './Beside.tsx';
import { MeaningList } from './MeaningList.tsx';
import './meaning.css';

interface MeaningScreenProps {
  readonly build: Build;
  readonly assembly: Assembly;
}

/** What the marks of an assembly mean on this gear set, in words, and how they lie beside an earlier mark. */
export function MeaningScreen({ build, assembly }: MeaningScreenProps) {
  const others = build.assemblies.filter((one) => one.id !== assembly.id && markResultOf(one) !== undefined);
  const [chosen, setChosen] = useState(() => usualOther(others)?.id);
  const { makeUp } = build;
  const result = markResultOf(assembly);
  const back = (): void => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' });
  if (makeUp === undefined || result === undefined) return <Nothing onBack={back} />;
  const seen = seenIn(result);
  const other = others.find(({ id }) => id === chosen);
  const otherResult = markResultOf(other);
  const then = otherResult === undefined ? undefined : seenIn(otherResult)[0];
  const foundResult = markResultOf(others.findLast(({ phase }) => phase === 'as-found'));
  const asFound = foundResult === undefined ? undefined : seenIn(foundResult)[0];
  const means = [
    ...meaningOf({ seen, ...(asFound === undefined ? {} : { asFound }) }, makeUp),
    ...recordedBacklash(build),
  ];
  const [first] = seen;
  return (
    <>
      <Stage
        title={`${assemblyName(assembly)}: what the mark means`}
        aside={
          others.length === 0 ? undefined : (
            <Pick
              bare
              label="Laid beside"
              value={other?.id ?? 'nothing'}
              onChange={setChosen}
              options={[
                { value: 'nothing', words: 'By itself' },
                ...others.map((one) => ({ value: one.id, words: `Beside ${lower(assemblyName(one))}` })),
              ]}
            />
          )
        }
      >
        <div className="meaning">
          <div className="meaning__picture">
            <FlanksPicture
              makeUp={makeUp}
              drive={shown(first?.drive, undefined, undefined, then?.drive)}
              coast={shown(first?.coast, undefined, undefined, then?.coast)}
            />
          </div>
          {other === undefined || first === undefined || then === undefined ? undefined : (
            <Beside
              now={first}
              then={then}
              name={lower(assemblyName(other))}
              compounds={[result.compound, otherResult?.compound]}
            />
          )}
          <MeaningList means={means} />
        </div>
      </Stage>
      <Words title="Words, not amounts" next={goOn(build)} others={<Button onPress={back}>Back to the mark</Button>}>
        <p>
          Contact is named on the ring gear. The drive side outranks coast. How much to move is asked of the plan, and
          the maker’s manual goes before both.
        </p>
      </Words>
    </>
  );
}

/** Beside its own mark as found, where there is one; else beside the trial before. */
const usualOther = (others: readonly Assembly[]): Assembly | undefined =>
  others.findLast(({ phase }) => phase === 'as-found') ?? others.at(-1);

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

const Nothing = ({ onBack }: { readonly onBack: () => void }) => (
  <>
    <Stage title="What the mark means">
      <p>No mark has been kept on this assembly yet.</p>
    </Stage>
    <Words title="Draw it or read it off a photo" next={{ words: 'Back to the mark', run: onBack }} />
  </>
);
