import { useEffect, useState } from 'react';
import { type Month, together, trialsEach } from '../../../shared/job/shop/overTime.ts';
import { ask } from '../../stores/ask.ts';
import { onBuilds } from '../../stores/builds.ts';

const shown = 6;

/** Trials a build took until its mark was right, and first moves that were right: all of it together, and month by month. */
export function OverTime() {
  const [months, setMonths] = useState<readonly Month[]>([]);
  useEffect(() => {
    let there = true;
    const stop = onBuilds(
      () => void ask('shop.over-time', {}).then((read) => there && read !== undefined && setMonths(read)),
    );
    return () => {
      there = false;
      stop();
    };
  }, []);
  const all = together(months);
  if (all.right === 0) return undefined;
  return (
    <section className="shop__time">
      <h3>Until the mark was right</h3>
      <p>
        {eachWords(all.right, trialsEach(all))}
        {all.changed === 0 ? '' : ` The first change was right in ${all.rightAfterOne} of ${all.changed}.`}
      </p>
      <table className="shop__months digits">
        <thead>
          <tr>
            <th scope="col">Begun in</th>
            <th scope="col">Right</th>
            <th scope="col">Trials each</th>
            <th scope="col">First change right</th>
          </tr>
        </thead>
        <tbody>
          {months.slice(-shown).map((month) => (
            <tr key={month.month}>
              <th scope="row">{month.month}</th>
              <td>
                {month.right} of {month.builds}
              </td>
              <td>{trialsEach(month)?.toFixed(1) ?? 'none yet'}</td>
              <td>{month.changed === 0 ? 'none needed' : `${month.rightAfterOne} of ${month.changed}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const eachWords = (builds: number, each: number | undefined): string =>
  `${builds} ${builds === 1 ? 'build' : 'builds'}, ${each?.toFixed(1) ?? 'no'} trials each.`;
