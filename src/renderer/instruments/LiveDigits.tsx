import { useEffect, useRef } from 'react';
import { type Shown, show } from '../../shared/basics/show.ts';
import { figureInside } from '../../shared/job/captures/torqueScale.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { ageOf, onFresh, slotOf } from '../live/slots.ts';
import { type Session, useSession } from '../stores/session.ts';

/** The dash that stands where no number is: as wide as a number, so that nothing jumps when one comes. */
const noDigits = '–.–––';

/** How often it is looked whether a gauge still sends, in milliseconds. */
const lookEvery_ms = 150;

/** What a gauge reads now, in the units of the session and with every digit it resolves. */
function shownNow(gauge: Gauge, units: Session['units']): Shown {
  const dimension = gauge.kind === 'torque' ? 'torque' : 'length';
  const slot = slotOf(gauge.id);
  const { value } = slot;
  const resolution = figureInside(gauge.resolution, gauge);
  if (value !== undefined && ageOf(slot, performance.now()) !== 'dead')
    return show(value, dimension, units, resolution);
  return { digits: noDigits, unit: show(0, dimension, units, resolution).unit };
}

/**
 * The live value as text. It writes into the page by itself, at once with each reading: drawing a component for
 * every reading would be late at 100/s and stand still at 1,000/s. The digits lie over a place held open for them by
 * eights, which are as wide, so that a new figure never sets the page around it in motion.
 */
export function LiveDigits({ gauge, className = '' }: { readonly gauge: Gauge; readonly className?: string }) {
  const whole = useRef<HTMLSpanElement>(null);
  const place = useRef<HTMLSpanElement>(null);
  const digits = useRef<HTMLSpanElement>(null);
  const unit = useRef<HTMLSpanElement>(null);
  const units = useSession((session) => session.units);
  useEffect(() => {
    const write = (): void => {
      const shown = shownNow(gauge, units);
      whole.current?.toggleAttribute('data-old', ageOf(slotOf(gauge.id), performance.now()) !== 'fresh');
      writeText(digits.current, shown.digits);
      writeText(place.current, shown.digits.replaceAll(/\d/gu, '8'));
      writeText(unit.current, shown.unit);
    };
    write();
    const stop = onFresh(gauge.id, write);
    // No reading tells that none comes.
    const looking = setInterval(write, lookEvery_ms);
    return () => {
      stop();
      clearInterval(looking);
    };
  }, [gauge, units]);
  return (
    <span ref={whole} className={`live digits ${className}`} data-gauge={gauge.id}>
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
