import { show } from '../../../../shared/basics/show.ts';
import { isNone, type OrNone } from '../../../../shared/basics/result.ts';
import { useSession } from '../../../stores/session.ts';
import type { RocksNow } from './found.ts';
import './rocks.css';

/** Places drawn for rocks; most stations are sure after four. */
const places = 6;

interface RocksProps {
  readonly now: RocksNow;
  /** What the station before came to; it stays in sight until the first rock of the next. */
  readonly last: OrNone<number> | undefined;
}

/** The rocks counted at this station, a block for each, and what they come to so far. */
export function Rocks({ now, last }: RocksProps) {
  const units = useSession((session) => session.units);
  const before = last === undefined || isNone(last) ? undefined : last;
  const value = now.mean ?? before;
  const shown = value === undefined ? undefined : show(value, 'length', units);
  const blocks = Array.from({ length: Math.max(places, now.rocks) }, (_, index) => index + 1);
  return (
    <div className="rocks">
      <div className="rocks__blocks" role="img" aria-label={`${now.rocks} rocks counted`}>
        {blocks.map((rock) => (
          <span key={rock} className={rock <= now.rocks ? 'rocks__block rocks__block--there' : 'rocks__block'} />
        ))}
      </div>
      {shown === undefined ? undefined : (
        <span className="rocks__value digits">
          {shown.digits} <span className="rocks__unit">{shown.unit}</span>
        </span>
      )}
      <span className="rocks__words">{rocksWords(now, before !== undefined)}</span>
    </div>
  );
}

function rocksWords(now: RocksNow, before: boolean): string {
  if (now.mean !== undefined) return 'mean of this station';
  if (!before) return now.lifted ? 'Stem lifted' : 'Rock there and back';
  return now.lifted ? 'last station, stem lifted' : 'last station';
}
