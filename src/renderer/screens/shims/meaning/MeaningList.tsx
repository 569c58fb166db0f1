import type { Meaning } from '../../../../shared/axle/mark/meaning.ts';

/** The sentences in their order, each with where it comes from behind a tap; where sources disagree it stands apart. */
export const MeaningList = ({ means }: { readonly means: readonly Meaning[] }) => (
  <ol className="means">
    {means.map((one) => (
      <li key={one.text} className={`means__one means__one--${one.kind}`}>
        <p className="means__text">{one.text}</p>
        <details className="means__source quiet">
          <summary>
            Source<span className="unseen">: where this comes from</span>
          </summary>
          {sourceWords(one)}
        </details>
      </li>
    ))}
  </ol>
);

function sourceWords({ kind, standing, sources = [] }: Meaning): string {
  const named = sources.length === 0 ? '' : `: ${sources.join(', ')}`;
  if (kind === 'sources-disagree') return `Sources disagree${named}`;
  return { published: 'Public manuals', 'common-practice': 'Common practice', derived: 'Worked out from the geometry' }[
    standing
  ].concat(named);
}
