import { sideWords } from '../../../../shared/presentation/drawing/flankWords.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import { type Compared, type ComparedRow, comparisonOf } from '../../../../shared/job/swap/comparison.ts';
import { useSession } from '../../../stores/session.ts';
import { placeWords } from '../../checks/typed/shims.ts';
import './expected.css';

const whatWords: Readonly<Record<Compared, string>> = {
  backlash: 'Backlash',
  'drive-height': 'Drive, height',
  'drive-face': 'Drive, along the face',
  'coast-height': 'Coast, height',
  'coast-face': 'Coast, along the face',
};

/** On a trial that was put together by a swap card: what the card expected, and what has come. */
export function ExpectedPanel({ build, assembly }: { readonly build: Build; readonly assembly: Assembly }) {
  const units = useSession((session) => session.units);
  const comparison = comparisonOf(build, assembly);
  if (comparison === undefined) return undefined;
  const { rows, otherPacks } = comparison;
  return (
    <section className="expected">
      <h2 className="expected__title">Expected and seen</h2>
      <table className="expected__table">
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Expected</th>
            <th scope="col">Seen</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.what}>
              <th scope="row">{whatWords[row.what]}</th>
              <td className="digits">
                {valueWords(row, row.expected, units)} {withinWords(row, units)}
              </td>
              <td className="digits">{seenWords(row, units)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {otherPacks.length === 0 ? undefined : (
        <p>
          Other packs went in than the card asked for (
          {otherPacks.map(({ place }) => placeWords[place].toLowerCase()).join(', ')}), so it expected another place.
        </p>
      )}
    </section>
  );
}

const valueWords = ({ what }: ComparedRow, value: number, units: UnitSystem): string => {
  if (what === 'backlash') return showText(value, 'length', units);
  return what.endsWith('height') ? sideWords(value, 'crown', 'root') : sideWords(value, 'heel', 'toe');
};

const withinWords = ({ what, U95 }: ComparedRow, units: UnitSystem): string =>
  `± ${what === 'backlash' ? showText(U95, 'length', units) : `${Math.round(U95 * 100)} %`}`;

function seenWords(row: ComparedRow, units: UnitSystem): string {
  if (row.seen === undefined) return 'not read yet';
  return `${valueWords(row, row.seen, units)}, ${row.asExpected === true ? 'as expected' : 'not as expected'}`;
}
