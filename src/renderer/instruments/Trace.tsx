import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { Scene } from '../../shared/drawing/scene.ts';
import type { Limits } from '../../shared/drawing/scale.ts';
import { type TraceEvent, traceScene } from '../../shared/drawing/trace.ts';
import { slotOf } from '../live/slots.ts';
import { useSession } from '../stores/session.ts';
import { Drawing } from './Drawing.tsx';
import { useRoom } from './size.ts';
import './instrument.css';

interface TraceProps {
  readonly gauge: string;
  readonly quantity: string;
  readonly dimension: 'length' | 'torque';
  readonly marks: readonly TraceEvent[];
  readonly band?: Limits | undefined;
  readonly span_s?: number;
  /** What lies before this moment is not drawn: a stem on its way would press the rocks flat. */
  readonly since_s?: number | undefined;
  /** The picture stands still: the stem is off the tooth and says nothing. */
  readonly still?: boolean;
}

/** A line that moves looks smooth at 30 pictures a second; more would only warm the laptop. */
const every_ms = 30;

/** The last seconds of a gauge, drawn with the picture's own rhythm and only when something new came. */
export function Trace({
  gauge,
  quantity,
  dimension,
  marks,
  band,
  span_s = 20,
  since_s = 0,
  still = false,
}: TraceProps) {
  const [room, size] = useRoom(13);
  const system = useSession((session) => session.units);
  const [scene, setScene] = useState<Scene>();
  const latest = useRef({ marks, band, since_s, still });
  useLayoutEffect(() => {
    latest.current = { marks, band, since_s, still };
  });
  useEffect(() => {
    if (size === undefined) return undefined;
    let drawn = -2;
    let drawnAt = 0;
    let frame = requestAnimationFrame(function draw(at): void {
      frame = requestAnimationFrame(draw);
      const slot = slotOf(gauge);
      const now = latest.current;
      if (now.still || slot.seq === drawn || at - drawnAt < every_ms) return;
      drawn = slot.seq;
      drawnAt = at;
      const since = Math.max(slot.t - span_s, now.since_s);
      const events = now.marks.filter((mark) => mark.t >= since);
      const band = now.band === undefined ? {} : { band: now.band };
      setScene(
        traceScene({ quantity, dimension, points: slot.trail.points(since), events, ...band, span_s, system, size }),
      );
    });
    return () => cancelAnimationFrame(frame);
  }, [gauge, quantity, dimension, span_s, system, size]);
  return (
    <div className="instrument" ref={room}>
      {scene === undefined ? undefined : <Drawing scene={scene} />}
    </div>
  );
}
