import { show } from '../../../../shared/basics/show.ts';
import { type State, stateWords } from '../../../../shared/presentation/drawing/states.ts';
import { StateMark } from '../../../parts/StateMark.tsx';
import { useSession } from '../../../stores/session.ts';
import type { RocksNow } from './found.ts';
import './rocks.css';

/** Places drawn for rocks; most stations are sure after four. */
const places = 6;

/** What the station before came to, and how it stands; without a limit it has no state. */
interface LastStation {
  readonly value_mm: number;
  readonly state: State | 'recorded';
}

interface RocksProps {
  readonly now: RocksNow;
  /** The station at work, and how many there are to be. */
  readonly station: number;
  readonly of: number;
  /** It stays in sight until the first rock of the next station. */
  readonly last: LastStation | undefined;
}

/** What is read from the gear: which station of how many, its rocks, and what it or the one before came to, with its word. */
export function Rocks({ now, station, of, last }: RocksProps) {
  const units = useSession((session) => session.units);
  const value = now.mean ?? last?.value_mm;
  const shown = value === undefined ? undefined : show(value, 'length', units);
  const blocks = Array.from({ length: Math.max(places, now.rocks) }, (_, index) => index + 1);
  return (
    <div className="rocks">
      <div className="rocks__line">
        <span className="rocks__station digits" role="img" aria-label={`Station ${station} of ${of}`}>
          {station} / {of}
        </span>
        <div className="rocks__blocks" role="img" aria-label={`${now.rocks} rocks counted`}>
          {blocks.map((rock) => (
            <span key={rock} className={rock <= now.rocks ? 'rocks__block rocks__block--there' : 'rocks__block'} />
          ))}
        </div>
      </div>
      {shown === undefined ? undefined : (
        <span className="rocks__value digits">
          {shown.digits} <span className="rocks__unit">{shown.unit}</span>
        </span>
      )}
      <Standing now={now} last={last} />
    </div>
  );
}

/** How the last station stands, as shape and word; while the next is rocked, that its number is not yet the last word. */
function Standing({ now, last }: Pick<RocksProps, 'now' | 'last'>) {
  if (now.mean !== undefined) return <span className="rocks__words">so far</span>;
  if (last === undefined)
    return <span className="rocks__words rocks__words--how">{now.lifted ? 'stem lifted' : 'rock there and back'}</span>;
  if (last.state === 'recorded') return <span className="rocks__words rocks__words--how">last station</span>;
  return (
    <span className={`rocks__words rocks__words--${last.state}`}>
      <StateMark shape={last.state} size={36} /> {last.state === 'too-close' ? 'too close' : stateWords[last.state]}
    </span>
  );
}
