import type { BenchClient } from '../../shared/contract/contract.ts';
import { measuredInside, readsKind } from '../../shared/job/captures/torqueScale.ts';
import { listeners, listenersBy } from '../../shared/basics/listeners.ts';
import type { Heard } from '../../shared/gauges/heard.ts';
import { unitNamed } from '../../shared/basics/units.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { useGauges } from '../stores/gauges.ts';
import { type Trail, trail } from './trail.ts';

/** What a gauge said last. It lives outside every store: at 1,000 readings/s nothing may re-render for each. */
interface Slot {
  /** In mm or N·m; undefined until a reading came that has a known unit. */
  value: number | undefined;
  /** As received. */
  received: { readonly value: number; readonly unit: string } | undefined;
  seq: number;
  /** The bench's monotonic time of the last reading, in seconds. */
  t: number;
  /** This page's clock when it came, in milliseconds, for its age. */
  heardAt: number;
  /** How long after the one before it that was, in milliseconds; infinite after the first. */
  pause: number;
  readonly trail: Trail;
}

/** 80 s at 100 readings/s. */
const capacity = 8192;

const slots = new Map<string, Slot>();
const everything = listeners<[heard: Heard]>();
const fresh = listenersBy<string, []>();

export function slotOf(gauge: string): Slot {
  const found = slots.get(gauge);
  if (found !== undefined) return found;
  const fresh: Slot = {
    value: undefined,
    received: undefined,
    seq: -1,
    t: 0,
    heardAt: 0,
    pause: Infinity,
    trail: trail(capacity),
  };
  slots.set(gauge, fresh);
  return fresh;
}

/** A gauge that sends by itself leaves no longer pause than this between two readings, in milliseconds. */
const longestPause = 700;
/** After so long without a reading the last one is old, in milliseconds: the screen has to say so within a second. */
const oldAfter = 800;

/**
 * How the last reading stands: `fresh`; `dead`, where a gauge that sends by itself has fallen silent, so that nobody reads
 * it any more; `old`, where it came by a press of its send key and is still what it showed then.
 */
export function ageOf({ heardAt, pause }: Slot, now: number): 'fresh' | 'old' | 'dead' {
  if (heardAt === 0 || now - heardAt < Math.max(oldAfter, pause <= longestPause ? pause * 1.2 : 0)) return 'fresh';
  return pause <= longestPause ? 'dead' : 'old';
}

/** Calls its listener for every row that is heard, after the slots have taken it; the function returned stops that. */
export const onHeard = everything.on;

/**
 * Calls its listener when a gauge has said something new: once for each message of the bench, however many readings it
 * brings, for only the last of them can be seen. The function returned stops that.
 */
export const onFresh = fresh.on;

export const listen = (client: BenchClient): (() => void) =>
  client.hear('heard', (news) => {
    const now = performance.now();
    const spoke = new Set<string>();
    for (const heard of news) {
      if ('press' in heard) continue;
      takeReading(heard, now);
      spoke.add(heard.gauge);
    }
    // Digits first: what the hand waits for is on the page before anything is worked out from it.
    for (const gauge of spoke) fresh.tell(gauge);
    for (const heard of news) everything.tell(heard);
  });

function takeReading(heard: Exclude<Heard, { press: unknown }>, now: number): void {
  const slot = slotOf(heard.gauge);
  slot.seq = heard.seq;
  if ('value' in heard) {
    const inside = insideOf(
      heard,
      useGauges.getState().gauges?.find(({ id }) => id === heard.gauge),
    );
    slot.received = heard;
    slot.value = inside;
    slot.t = heard.t;
    // Several in one message came together.
    if (slot.heardAt !== now) slot.pause = slot.heardAt === 0 ? Infinity : now - slot.heardAt;
    slot.heardAt = now;
    if (inside !== undefined) slot.trail.push(heard.t, inside);
  }
  if ('none' in heard) slot.trail.cut();
}

/**
 * A received value in mm or N·m, or undefined when its unit is not known here, when it is a force at no arm, or when the
 * gauge's record says that it reads something else: millimetres are never shown as a torque.
 */
function insideOf(
  received: { readonly value: number; readonly unit: string },
  gauge: Pick<Gauge, 'kind' | 'arm'> | undefined,
): number | undefined {
  const unit = unitNamed(received.unit);
  if (unit === undefined || (gauge !== undefined && !readsKind(gauge.kind, unit))) return undefined;
  return measuredInside(received.value, unit, gauge ?? {});
}

/** The unit a gauge sends though its record says that it reads something else; undefined where they agree. */
export function otherUnit(gauge: Pick<Gauge, 'id' | 'kind'>): string | undefined {
  const { received } = slotOf(gauge.id);
  const unit = received === undefined ? undefined : unitNamed(received.unit);
  return unit === undefined || readsKind(gauge.kind, unit) ? undefined : unit.symbol;
}
