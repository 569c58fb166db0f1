import { show } from '../../shared/basics/show.ts';
import { isNone, type OrNone } from '../../shared/basics/result.ts';
import { useSession } from '../stores/session.ts';
import { reasonShort } from '../../shared/presentation/words/refusals.ts';
import './bigNumber.css';

interface BigNumberProps {
  readonly words: string;
  readonly value: OrNone<number> | undefined;
  readonly dimension: 'length' | 'torque';
  readonly resolution?: number;
}

/** A result as it grows, beside the live reading and second to it in size. */
export function BigNumber({ words, value, dimension, resolution }: BigNumberProps) {
  const units = useSession((session) => session.units);
  const shown = value === undefined || isNone(value) ? undefined : show(value, dimension, units, resolution);
  return (
    <p className="big-number">
      <span className="big-number__words">{words}</span>
      <span className="big-number__value digits">
        {shown === undefined ? (
          <span className="big-number__none">
            {value !== undefined && isNone(value) ? reasonShort(value.none) : '–'}
          </span>
        ) : (
          <>
            {shown.digits} <span className="big-number__unit">{shown.unit}</span>
          </>
        )}
      </span>
    </p>
  );
}
