import { useEffect, useRef } from 'react';
import { type Shown, show } from '../../shared/basics/show.ts';
import { figureInside } from '../../shared/job/captures/torqueScale.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { onFresh, slotOf } from '../live/slots.ts';
import { type Session, useSession } from '../stores/session.ts';

/** The dash that stands where no number is: as wide as a number, so that nothing jumps when one comes. */
const noDigits = '–.–––';

/** What a gauge reads now, in the units of the session and with every digit it resolves. */
function shownNow(gauge: Gauge, units: Session['units']): Shown {
  const dimension = gauge.kind === 'torque' ? 'torque' : 'length';
  const { value } = slotOf(gauge.id);
  const resolution = figureInside(gauge.resolution, gauge);
  if (value !== undefined) return show(value, dimension, units, resolution);
  return { digits: noDigits, unit: show(0, dimension, units, resolution).unit };
}

/**
 * The live value as text. It writes into the page by itself, at once with each reading: drawing a component for
 * every reading would be late at 100/s and stand still at 1,000/s. The digits lie over a place held open for them by
 * eights, which are as wide, so that a new figure never sets the page around it in motion.
 */
export function LiveDigits({ gauge, className = '' }: { readonly gauge: Gauge; readonly className?: string }) {
  const place = useRef<HTMLSpanElement>(null);
  const digits = useRef<HTMLSpanElement>(null);
  const unit = useRef<HTMLSpanElement>(null);
  const units = useSession((session) => session.units);
  useEffect(() => {
    const write = (): void => {
      const shown = shownNow(gauge, units);
      writeText(digits.current, shown.digits);
      writeText(place.current, shown.digits.replaceAll(/\d/gu, '8'));
      writeText(unit.current, shown.unit);
    };
    write();
    return onFresh(gauge.id, write);
  }, [gauge, units]);
  return (
    <span className={`live digits ${className}`} data-gauge={gauge.id}>
      <span className="live__room">
        <span ref={place} className="live__place" aria-hidden="true" />
        <span ref={digits} className="live__digits" />
      </span>
      <span className="live__unit">
        {' '}
        <span ref={unit} />
      </span>
    </span>
  );
}

/** Changes the text that is there: a new text node for each reading would be laid out from nothing. */
function writeText(element: HTMLElement | null, words: string): void {
  const text = element?.firstChild;
  if (!(text instanceof Text)) element?.replaceChildren(words);
  else if (text.data !== words) text.data = words;
}
