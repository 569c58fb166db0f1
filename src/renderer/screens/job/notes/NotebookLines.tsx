import type { Entry } from '../../../../shared/job/records/notebook.ts';
import { standing } from '../../../../shared/job/records/notebook.ts';
import { deedWords } from '../../../../shared/presentation/words/deeds.ts';
import { Reveal } from '../../../parts/Reveal.tsx';
import { useNotebook } from '../../../stores/notebook.ts';
import { timeWords } from '../../../words/days.ts';

/** Everything that was ever written in this build, newest first; what undo struck through has a line through it. */
export function NotebookLines() {
  const entries = useNotebook((open) => open.notebook?.entries) ?? [];
  const written = entries.filter(({ deed }) => deed.kind !== 'struck');
  const stand = new Set(standing(entries).map(({ id }) => id));
  const struck = written.filter(({ id }) => !stand.has(id)).length;
  return (
    <Reveal
      label="Everything written"
      words={`${written.length} entries, ${struck === 0 ? 'none' : struck} struck through`}
    >
      <ul className="notes__lines">
        {written.toReversed().map((entry) => (
          <Line key={entry.id} entry={entry} entries={entries} stands={stand.has(entry.id)} />
        ))}
      </ul>
    </Reveal>
  );
}

function Line({
  entry,
  entries,
  stands,
}: {
  readonly entry: Entry;
  readonly entries: readonly Entry[];
  readonly stands: boolean;
}) {
  const words = deedWords(entry, entries);
  return (
    <li>
      <span className="quiet">
        {timeWords(entry.at)}, {entry.by}
      </span>{' '}
      {stands ? words : <s>{words}</s>}
    </li>
  );
}
