import { type Comparison, compareMarks, type Movement } from '../../../../shared/axle/mark/compare.ts';
import type { SeenAt } from '../../../../shared/axle/mark/meaning.ts';

interface BesideProps {
  readonly now: SeenAt;
  readonly then: SeenAt;
  /** Of the assembly the other mark was seen on. */
  readonly name: string;
  /** With what each was painted, where that was said. */
  readonly compounds: readonly [now: string | undefined, then: string | undefined];
}

/** How the two marks lie to each other on each flank: overlap, movement, and whether reading can tell them apart. */
export function Beside({ now, then, name, compounds }: BesideProps) {
  const rows = (['drive', 'coast'] as const).flatMap((side) => {
    const [a, b] = [now[side], then[side]];
    return a === undefined || b === undefined ? [] : [{ side, compared: compareMarks(a, b) }];
  });
  const warnings = [...new Set([...otherCompound(compounds), ...rows.flatMap(({ compared }) => compared.warnings)])];
  return (
    <section className="beside" aria-label={`Beside ${name}`}>
      <table className="beside__table digits">
        <caption>The thin line is {name}.</caption>
        <thead>
          <tr>
            <th scope="col">Flank</th>
            <th scope="col">Overlap</th>
            <th scope="col">Height</th>
            <th scope="col">Along the face</th>
            <th scope="col">So</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ side, compared }) => (
            <tr key={side}>
              <th scope="row">{side}</th>
              <td>{Math.round(compared.overlap * 100)} %</td>
              <td>{movedWords(compared.crown, 'up', 'down')}</td>
              <td>{movedWords(compared.heel, 'to the heel', 'to the toe')}</td>
              <td>{verdictWords(compared)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {warnings.map((warning) => (
        <p key={warning} className="beside__warning">
          {warning}
        </p>
      ))}
    </section>
  );
}

const otherCompound = ([now, then]: BesideProps['compounds']): readonly string[] =>
  now === undefined || then === undefined || now.toLowerCase() === then.toLowerCase()
    ? []
    : [`The compounds were different (${now}, ${then}): stiff and thin ones show marks of different size.`];

function movedWords({ by, U95, knows }: Movement, plus: string, minus: string): string {
  const percent = Math.round(Math.abs(by) * 100);
  const amount = percent === 0 ? '0 %' : `${percent} % ${by > 0 ? plus : minus}`;
  if (knows === 'nothing') return 'cut off, not known';
  const bound = { exact: '', 'at-least': 'at least ', 'at-most': 'at most ' }[knows];
  return `${bound}${amount} ±${Math.round(U95 * 100)} %`;
}

const verdictWords = ({ withinReading, heel, crown }: Comparison): string => {
  if (withinReading) return 'the same, as far as reading can tell';
  return [heel, crown].some(({ verdict }) => verdict === 'moved') ? 'moved' : 'not to be told: cut off';
};
