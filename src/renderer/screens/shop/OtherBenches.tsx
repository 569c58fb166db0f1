import type { ArchiveFound, ArchiveFoundBuilds } from '../../../shared/contract/archive.ts';
import { Button } from '../../parts/Button.tsx';
import { bringBuild, useAllBenches } from '../../stores/archive.ts';
import { go } from '../../stores/route.ts';
import { ownerWords, stageWords } from '../../words/builds.ts';
import { dayWords } from '../../words/days.ts';

/** The builds of the other benches that have the same words in them; nothing where this bench has no archive. */
export function OtherBenches({ words }: { readonly words: string }) {
  const found = useAllBenches(words);
  if (found === undefined) return undefined;
  const others = found.builds.filter(({ here }) => !here);
  return (
    <section className="shop__others">
      <h2>At other benches</h2>
      <p className="quiet" role="status">
        {standWords(found, others.length)}
      </p>
      {others.length === 0 ? undefined : (
        <table className="shop__builds">
          <thead>
            <tr>
              <th scope="col">Build</th>
              <th scope="col">Stands at</th>
              <th scope="col">Last worked on</th>
              <th scope="col">Bench</th>
            </tr>
          </thead>
          <tbody>
            {others.map((one) => (
              <OtherRow key={one.summary.id} {...one} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function standWords({ from, why, near }: ArchiveFoundBuilds, count: number): string {
  if (from === 'here')
    return `${why?.sentence ?? 'The archive is out of reach.'} Shown are the builds of this bench alone.`;
  if (count === 0) return 'None of theirs has these words.';
  return near
    ? 'None of theirs has these words; these come near.'
    : 'Opened here, a build is brought over whole, with its readings.';
}

function OtherRow({ summary, bench }: ArchiveFound) {
  const owner = ownerWords(summary);
  const bring = async (): Promise<void> => {
    if (await bringBuild(summary.id)) go({ at: 'build', build: summary.id });
  };
  return (
    <tr>
      <th scope="row">
        <Button look="quiet" onPress={() => void bring()}>
          {summary.title}
        </Button>
        {owner === '' ? undefined : <span className="shop__owner quiet">{owner}</span>}
      </th>
      <td>{stageWords(summary)}</td>
      <td>
        {dayWords(summary.lastEntryAt)} <span className="quiet">{summary.technician}</span>
      </td>
      <td>{bench.name}</td>
    </tr>
  );
}
