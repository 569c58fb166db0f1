import { useState } from 'react';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { useBuilds, useSought, useSummary } from '../../../stores/builds.ts';
import { noneWords, ownerWords } from '../../../words/builds.ts';

export const noEarlier = 'none';

/** More builds than fit in a list that opens get a line to find one by. */
const manyBuilds = 9;

interface EarlierPickProps {
  /** The build this axle comes back from, or {@link noEarlier}. */
  readonly value: string;
  readonly onChange: (earlier: string) => void;
}

/** Which build an axle comes back from: found by its name, its plate as it was typed, or the number on its certificate. */
export function EarlierPick({ value, onChange }: EarlierPickProps) {
  const counts = useBuilds((seen) => seen.counts);
  const [words, setWords] = useState('');
  const { builds = [] } = useSought(words.trim() === '' ? {} : { words });
  const chosen = useSummary(value === noEarlier ? undefined : value);
  if (counts === undefined || counts.all === 0) return undefined;
  const here = builds.filter(({ lies, id }) => lies !== 'thrown-away' && id !== value);
  const listed = chosen === undefined ? here : [chosen, ...here];
  return (
    <>
      {counts.all > manyBuilds ? (
        <Field
          label="Find the earlier build"
          type="search"
          value={words}
          onChange={setWords}
          hint={
            builds.length === 0 && words.trim() !== ''
              ? noneWords(words, counts)
              : 'Name, plate, customer, or what its tag says.'
          }
        />
      ) : undefined}
      <Pick
        label="Comeback of an earlier build"
        value={value}
        onChange={onChange}
        options={[
          { value: noEarlier, words: 'No, a first visit' },
          ...listed.map((build) => ({
            value: build.id,
            words: [build.title, ownerWords(build)].filter((one) => one !== '').join(', '),
          })),
        ]}
      />
    </>
  );
}
