import { useState } from 'react';
import type { BuildCounts, BuildSummary } from '../../../shared/contract/builds.ts';
import type { Alike, Sought, Which } from '../../../shared/job/shop/sought.ts';
import { Button } from '../../parts/Button.tsx';
import { Choice } from '../../parts/Choice.tsx';
import { Field } from '../../parts/Field.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { useBuilds, useSought, useSummary } from '../../stores/builds.ts';
import { go } from '../../stores/route.ts';
import { noneWords, ownerWords, whichWords } from '../../words/builds.ts';
import { FoundBuilds } from './FoundBuilds.tsx';
import { GaugesDue } from './GaugesDue.tsx';
import { OtherBenches } from './OtherBenches.tsx';
import { OverTime } from './OverTime.tsx';
import './shop.css';

const filters = ['unfinished', 'certified', 'comeback-due'] as const satisfies readonly Which[];
const everyOne = 'all';

interface ShopProps {
  readonly alike: Sought['alike'];
  readonly which: Which | undefined;
}

/** What the shop has built: found by whatever was typed, in any order, and two of them side by side. */
export function ShopScreen({ alike, which: first }: ShopProps) {
  const [words, setWords] = useState('');
  const [which, setWhich] = useState<Which | typeof everyOne>(first ?? everyOne);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const counts = useBuilds((seen) => seen.counts);
  const found = useSought({
    ...(words.trim() === '' ? {} : { words }),
    ...(which === everyOne ? {} : { which }),
    ...(alike === undefined ? {} : { alike }),
  });
  const choose = (id: string, isIn: boolean): void =>
    setChosen((before) => (isIn ? [...before, id].slice(-2) : before.filter((one) => one !== id)));
  return (
    <>
      <Stage
        title="All builds"
        aside={
          <Button look="quiet" keyHint="B" onPress={() => go({ at: 'builds' })}>
            Builds
          </Button>
        }
      >
        <div className="shop__asking">
          <Field label="Find" type="search" value={words} onChange={setWords} autoFocus />
          <Choice
            bare
            label="Which builds"
            value={which}
            onChange={setWhich}
            options={[
              { value: everyOne, words: 'All' },
              ...filters.map((one) => ({ value: one, words: countedWords(one, counts) })),
            ]}
          />
        </div>
        {alike === undefined ? undefined : <AlikeLine alike={alike} />}
        <div className="shop__found">
          {found.builds?.length === 0 && counts !== undefined ? (
            <p className="shop__none">{noneWords(words, counts)}</p>
          ) : (
            <FoundBuilds found={found} chosen={chosen} onChoose={choose} />
          )}
          <aside className="shop__beside" aria-label="What the builds tell together">
            <OverTime />
            <GaugesDue />
          </aside>
        </div>
        {alike === undefined ? <OtherBenches words={words} /> : undefined}
      </Stage>
      <ShopWords chosen={chosen} counts={counts} />
    </>
  );
}

const countedWords = (which: Which, counts: BuildCounts | undefined): string =>
  counts === undefined ? whichWords[which] : `${whichWords[which]} ${counts[which]}`;

const alikeWords: Readonly<Record<Alike, (build: BuildSummary) => string>> = {
  axle: ({ axle, title }) => `the axle of ${axle ?? title}`,
  customer: (build) => ownerWords(build),
  set: ({ set }) => `the set ${set?.ringGear ?? ''}`,
};

/** What the builds shown have in common, and the way back to all of them. */
function AlikeLine({ alike }: { readonly alike: NonNullable<Sought['alike']> }) {
  const build = useSummary(alike.build);
  return (
    <p className="shop__alike">
      <span>Builds of {build === undefined ? 'the same kind' : alikeWords[alike.in](build)}</span>
      <Button look="quiet" onPress={() => go({ at: 'shop' })}>
        All builds
      </Button>
    </p>
  );
}

/** How many there are, and comparing the two that are chosen. */
function ShopWords({
  chosen,
  counts,
}: {
  readonly chosen: readonly string[];
  readonly counts: BuildCounts | undefined;
}) {
  const [one, other] = chosen;
  const compare =
    one === undefined || other === undefined
      ? { words: 'Compare two builds', run: () => undefined, disabled: true }
      : { words: 'Compare the two', run: () => go({ at: 'compare', one, other }) };
  return (
    <Words
      title={counts === undefined ? 'Builds' : `${counts.all} ${counts.all === 1 ? 'build' : 'builds'}`}
      next={compare}
    >
      <p>
        {chosen.length === 2
          ? 'As found, every trial and the final assembly, each figure beside the other’s.'
          : 'Tick two builds to see them side by side.'}
      </p>
    </Words>
  );
}
