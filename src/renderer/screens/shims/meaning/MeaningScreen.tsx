import { useState } from 'react';
import { meaningOf, type SeenAt } from '../../../../shared/axle/mark/meaning.ts';
import { recordedBacklash } from '../../../../shared/job/checks/recordedBacklash.ts';
import { seenIn } from '../../../../shared/job/checks/marksSeen.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import type { MarkResult } from '../../../../shared/job/records/measurement.ts';
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
  const [chosen, setChosen] = useState(() => usualOther(build, assembly, others)?.id);
  const result = markResultOf(assembly);
  const back = (): void => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' });
  if (build.makeUp === undefined || result === undefined) return <Nothing onBack={back} />;
  const other = others.find(({ id }) => id === chosen);
  return (
    <>
      <Stage
        title={`${assemblyName(assembly)}: what the mark means`}
        aside={<BesidePick others={others} chosen={other?.id} onChange={setChosen} />}
      >
        <Meaning build={{ ...build, makeUp: build.makeUp }} result={result} others={others} other={other} />
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

interface BesidePickProps {
  readonly others: readonly Assembly[];
  readonly chosen: string | undefined;
  readonly onChange: (id: string) => void;
}

/** Which earlier mark is laid beside this one. */
const BesidePick = ({ others, chosen, onChange }: BesidePickProps) =>
  others.length === 0 ? undefined : (
    <Pick
      bare
      label="Laid beside"
      value={chosen ?? 'nothing'}
      onChange={onChange}
      options={[
        { value: 'nothing', words: 'By itself' },
        ...others.map((one) => ({ value: one.id, words: `Beside ${lower(assemblyName(one))}` })),
      ]}
    />
  );

interface MeaningProps {
  readonly build: Build & { readonly makeUp: MakeUp };
  readonly result: MarkResult;
  readonly others: readonly Assembly[];
  readonly other: Assembly | undefined;
}

function Meaning({ build, result, others, other }: MeaningProps) {
  const seen = seenIn(result);
  const [first] = seen;
  const [asFound] = seenOf(others.findLast(({ phase }) => phase === 'as-found'));
  const [then] = seenOf(other);
  const said = meaningOf({ seen, ...(asFound === undefined ? {} : { asFound }) }, build.makeUp);
  return (
    <div className="meaning">
      <div className="meaning__picture">
        <FlanksPicture
          makeUp={build.makeUp}
          drive={shown(first?.drive, undefined, undefined, then?.drive)}
          coast={shown(first?.coast, undefined, undefined, then?.coast)}
        />
      </div>
      {other === undefined || first === undefined || then === undefined ? undefined : (
        <Beside
          now={first}
          then={then}
          name={lower(assemblyName(other))}
          compounds={[result.compound, markResultOf(other)?.compound]}
        />
      )}
      <MeaningList means={[...said, ...recordedBacklash(build)]} />
    </div>
  );
}

function seenOf(assembly: Assembly | undefined): readonly SeenAt[] {
  const result = markResultOf(assembly);
  return result === undefined ? [] : seenIn(result);
}

/** Beside its own mark as found, where there is one; else beside the trial before. */
function usualOther(build: Build, here: Assembly, others: readonly Assembly[]): Assembly | undefined {
  const at = (one: Assembly): number => build.assemblies.findIndex(({ id }) => id === one.id);
  return others.findLast(({ phase }) => phase === 'as-found') ?? others.findLast((one) => at(one) < at(here));
}

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

const Nothing = ({ onBack }: { readonly onBack: () => void }) => (
  <>
    <Stage title="What the mark means">
      <p>No mark has been kept on this assembly yet.</p>
    </Stage>
    <Words title="Draw it or read it off a photo" next={{ words: 'Back to the mark', run: onBack }} />
  </>
);
