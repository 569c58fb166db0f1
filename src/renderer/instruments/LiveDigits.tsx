import { useEffect, useRef } from 'react';
import { type Shown, show } from '../../shared/quantities/show.ts';
import { figureInside } from '../../shared/measuring/torqueScale.ts';
import type { Gauge } from '../../shared/records/gauge.ts';
import { onHeard, slotOf } from '../live/slots.ts';
import { type Session, useSession } from '../stores/session.ts';

/** The dash that stands where no number is: as wide as a number, so that nothing jumps when one comes. */
const noDigits = '–.–––';

/** What a gauge reads now, in the units of the session and with every digit it resolves. */
export function shownNow(gauge: Gauge, units: Session['units']): Shown {
  const dimension = gauge.kind === 'torque' ? 'torque' : 'length';
  const { value } = slotOf(gauge.id);
  const resolution = figureInside(gauge.resolution, gauge);
  if (value !== undefined) return show(value, dimension, units, resolution);
  return { digits: noDigits, unit: show(0, dimension, units, resolution).unit };
}

/**
 * The live value as text. It writes into the page by itself, at once with each reading: drawing a component for
 * every reading would be late at 100/s and stand still at 1,000/s.
 */
export function LiveDigits({ gauge, className = '' }: { readonly gauge: Gauge; readonly className?: string }) {
  const digits = useRef<HTMLSpanElement>(null);
  const unit = useRef<HTMLSpanElement>(null);
  const units = useSession((session) => session.units);
  useEffect(() => {
    const write = (): void => {
      const shown = shownNow(gauge, units);
      if (digits.current !== null) digits.current.textContent = shown.digits;
      if (unit.current !== null) unit.current.textContent = shown.unit;
    };
    write();
    return onHeard((heard) => {
      if ('value' in heard && heard.gauge === gauge.id) write();
    });
  }, [gauge, units]);
  return (
    <span className={`live digits ${className}`} data-gauge={gauge.id}>
      <span ref={digits} className="live__digits" />
      <span className="live__unit">
        {' '}
        <span ref={unit} />
      </span>
    </span>
  );
}
