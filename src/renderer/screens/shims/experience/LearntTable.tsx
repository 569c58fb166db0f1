import { type Figures, usualFigures } from '../../../../shared/axle/experience/figures.ts';
import { backlashWords, filmWords, reliefWords } from '../../../../shared/presentation/words/experience.ts';
import { useSession } from '../../../stores/session.ts';

interface LearntTableProps {
  /** Backlash that the mesh model computes for each mm of the ring gear; undefined where it cannot. */
  readonly rate: number | undefined;
  readonly figures: Figures;
  /** Whether the plan uses them. */
  readonly on: boolean;
}

/** What is usual beside what the shop's own builds lead to expect. */
export function LearntTable({ rate, figures, on }: LearntTableProps) {
  const units = useSession((session) => session.units);
  const rows = [
    { name: 'Film of the compound', words: (of: Figures) => filmWords(of.film_um, units) },
    { name: 'Relief up the drive flank', words: (of: Figures) => reliefWords(of.relief) },
    ...(rate === undefined
      ? []
      : [
          {
            name: 'Backlash for each mm of the ring gear',
            words: (of: Figures) => backlashWords(of.perRingAway, rate),
          },
        ]),
  ];
  return (
    <table className={`experience__learnt digits${on ? '' : ' experience__learnt--off'}`}>
      <thead>
        <tr>
          <td />
          <th scope="col">Usual</th>
          <th scope="col">From these builds</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ name, words }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td className="quiet">{words(usualFigures)}</td>
            <td>{words(figures)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
