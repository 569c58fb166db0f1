import { notchWords } from '../../../../shared/job/swap/swapWords.ts';

/** The turns of the adjusters in their order. */
export function AdjusterTurns({ notches }: { readonly notches: number }) {
  const turns = notchWords(notches);
  return (
    <section>
      <h2 className="plan__heading">Side adjusters</h2>
      {turns.length === 0 ? (
        <p>They stay where they are.</p>
      ) : (
        <ol className="swap__turns">
          {turns.map((turn) => (
            <li key={turn}>{turn}</li>
          ))}
        </ol>
      )}
    </section>
  );
}
