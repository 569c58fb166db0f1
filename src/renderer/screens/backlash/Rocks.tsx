import { show } from '../../../shared/quantities/show.ts';
import { useSession } from '../../stores/session.ts';
import type { RocksNow } from './found.ts';
import './rocks.css';

/** Places drawn for rocks; most stations are sure after four. */
const places = 6;

/** The rocks counted at this station, a block for each, and what they come to so far. */
export function Rocks({ now }: { readonly now: RocksNow }) {
  const units = useSession((session) => session.units);
  const shown = now.mean === undefined ? undefined : show(now.mean, 'length', units);
  const blocks = Array.from({ length: Math.max(places, now.rocks) }, (_, index) => index + 1);
  return (
    <div className="rocks">
      <div className="rocks__blocks" role="img" aria-label={`${now.rocks} rocks counted`}>
        {blocks.map((rock) => (
          <span key={rock} className={rock <= now.rocks ? 'rocks__block rocks__block--there' : 'rocks__block'} />
        ))}
      </div>
      <span className="rocks__value digits">
        {shown === undefined ? (
          <span className="rocks__words">{now.lifted ? 'Stem lifted' : 'Rock there and back'}</span>
        ) : (
          <>
            {shown.digits} <span className="rocks__unit">{shown.unit}</span>
          </>
        )}
      </span>
    </div>
  );
}
