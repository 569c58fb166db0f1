import { useEffect, useId, useLayoutEffect, useRef } from 'react';
import type { Limits } from '../../shared/presentation/drawing/scale.ts';
import { restLevels } from '../../shared/presentation/drawing/restLevels.ts';
import { type TraceEvent, traceScene } from '../../shared/presentation/drawing/trace.ts';
import { slotOf } from '../live/slots.ts';
import { useSession } from '../stores/session.ts';
import { drawScene } from './drawScene.ts';
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
  /** Readings are drawn from the lower rest of the gear as it rocks, so that the play can be seen against its window. */
  readonly fromRest?: boolean;
  /** A level found in what was read, with its word: drawn across and written at the right. */
  readonly level?: { readonly v: number; readonly words: string } | undefined;
  /** Only a stem that stays on the gear sets the scale. */
  readonly calm?: boolean;
  /** The picture stands still: the stem is off the tooth and says nothing. */
  readonly still?: boolean;
}

type Drawn = Omit<Parameters<typeof traceScene>[0], 'points' | 'events' | 'band' | 'level' | 'levelWords'>;
type Latest = Pick<TraceProps, 'marks' | 'band' | 'level'> & { readonly since_s: number; readonly fromRest: boolean };

/** What the gauge has sent until now, as it is drawn. */
function sceneNow({ t, trail }: ReturnType<typeof slotOf>, now: Latest, drawn: Drawn & { readonly span_s: number }) {
  const since = Math.max(t - drawn.span_s, now.since_s);
  const levels = now.fromRest ? restLevels(now.marks, now.since_s) : undefined;
  // Before the first rest nobody knows where zero is, and a band would lie anywhere.
  const band = now.band === undefined || (now.fromRest && levels === undefined) ? {} : { band: now.band };
  return traceScene({
    ...drawn,
    points: trail.points(since),
    events: now.marks.filter((mark) => mark.t >= since),
    ...band,
    ...levels,
    ...(now.level === undefined ? {} : { level: now.level.v, levelWords: now.level.words }),
  });
}

/** No eye follows a line that moves more often than this, and every drawing keeps the readings behind it waiting. */
const atMostEvery_ms = 50;

/**
 * The last seconds of a gauge, drawn when something new came and at most once for each pixel that time moves on. It
 * draws into the page by itself: the digits of the gauges are written between two drawings and must not wait for them.
 */
export function Trace({
  gauge,
  quantity,
  dimension,
  marks,
  band,
  span_s = 20,
  since_s = 0,
  fromRest = false,
  calm = false,
  level,
  still = false,
}: TraceProps) {
  const [room, size] = useRoom(16);
  const system = useSession((session) => session.units);
  const svg = useRef<SVGSVGElement>(null);
  const id = useId();
  const latest = useRef({ marks, band, since_s, fromRest, level, still });
  useLayoutEffect(() => {
    latest.current = { marks, band, since_s, fromRest, level, still };
  });
  useEffect(() => {
    if (size === undefined) return undefined;
    const every_ms = Math.max(atMostEvery_ms, (span_s * 1000) / size.width);
    let drawn = -2;
    let drawnAt = 0;
    let frame = requestAnimationFrame(function draw(at): void {
      frame = requestAnimationFrame(draw);
      const slot = slotOf(gauge);
      const now = latest.current;
      if (now.still || slot.seq === drawn || at - drawnAt < every_ms) return;
      drawn = slot.seq;
      drawnAt = at;
      const scene = sceneNow(slot, now, { quantity, dimension, calm, span_s, system, size });
      if (svg.current !== null) drawScene(svg.current, scene, id);
    });
    return () => cancelAnimationFrame(frame);
  }, [gauge, quantity, dimension, span_s, calm, system, size, id]);
  return (
    <div className="instrument instrument--trace" ref={room}>
      <svg ref={svg} />
    </div>
  );
}
