import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { done } from '../../shared/contract/message.ts';
import { parseLineFormat } from '../../shared/gauges/lineFormat.ts';
import { mostHeard } from '../../shared/contract/gauges.ts';
import type { Heard } from '../../shared/gauges/heard.ts';
import type { Pedal } from '../../shared/measuring/reading.ts';
import { bytesOf } from '../../shared/gauges/text.ts';
import { linkText, parseLink } from '../../shared/gauges/link.ts';
import type { Gauge } from '../../shared/job/records/gauge.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { KeyboardDoor } from '../gauges/links/keyboard.ts';
import type { Gauges, Wanted } from '../gauges/gauges.ts';
import type { Clock } from '../clock.ts';
import type { GaugeRecords } from '../store/gaugeRecords.ts';
import { pathAndUsb } from '../gauges/recognise.ts';
import { statesOf } from './gaugeNews.ts';
import { type MeasuringDesk, noGauge } from './measurementAnswers.ts';
import { linkInReach } from './reach.ts';
import { heardOf } from '../journal/measured.ts';
import { instant } from './writing.ts';

export interface GaugeDesk extends MeasuringDesk {
  readonly gauges: Gauges;
  readonly keyboard: KeyboardDoor;
  /** Links that only a simulator knows; no port list shows a pseudo-terminal. */
  readonly simulatedLinks: readonly string[];
}

type Names =
  | 'gauges.list'
  | 'gauges.states'
  | 'gauges.save'
  | 'gauges.plug-in'
  | 'gauges.unplug'
  | 'gauges.press'
  | 'gauges.typed'
  | 'gauges.ports'
  | 'gauges.heard';

/** Everything about gauges and what they send. */
export function gaugeAnswers(desk: GaugeDesk): Pick<BenchAnswers, Names> {
  return {
    'gauges.list': async () => ok([...desk.gaugeRecords.list()]),
    'gauges.states': async () => ok(statesOf(desk.gauges)),
    'gauges.save': async ({ gauge }) =>
      saveGauge(desk, await withAdapter(desk, { ...gauge, id: gauge.id ?? desk.newId() })),
    'gauges.plug-in': async ({ gauge, at }) => plugIn(desk, gauge, at),
    'gauges.unplug': async ({ gauge }) => {
      await desk.gauges.disconnect(gauge);
      return ok(done);
    },
    'gauges.press': async ({ gauge, pedal }) =>
      desk.gaugeRecords.read(gauge) === undefined ? fail(noGauge(gauge)) : ok({ seq: pressPedal(desk, pedal) }),
    'gauges.typed': async ({ gauge, text }) => takeTyped(desk, gauge, text),
    'gauges.ports': async () => ok([...(await desk.gauges.ports()), ...desk.simulatedLinks.map(simulatedPort)]),
    'gauges.heard': async ({ gauge, from, to }) => {
      const flushed = desk.journal.flush();
      return flushed.ok ? ok(heardBetween(desk, gauge, from, to)) : flushed;
    },
  };
}

/** As many as one answer holds: the whole journal never has to fit in memory. */
function heardBetween(desk: GaugeDesk, gauge: string, from: number, to: number): Heard[] {
  const rows: Heard[] = [];
  for (const row of desk.journal.stretch(gauge, from, to)) {
    const heard = heardOf(row);
    if (heard !== undefined) rows.push(heard);
    if (rows.length === mostHeard) break;
  }
  return rows;
}

/** Hands on what a gauge typed, if it is the one that is listened to. */
function takeTyped(desk: GaugeDesk, id: string, text: string): Result<typeof done> {
  const gauge = desk.gaugeRecords.read(id);
  if (gauge === undefined) return fail(noGauge(id));
  if (gauge.link === 'keyboard:' && isConnected(desk, id) && desk.keyboard.type(bytesOf(text))) return ok(done);
  return fail({
    kind: 'not-listening',
    sentence: `${gauge.label} typed a reading, but is not plugged in.`,
    remedy: 'Plug it in on its page; then what it types is read.',
  });
}

/** Journals a press among the readings it falls between, and tells the screens. A pedal belongs to no gauge. */
export function pressPedal(desk: GaugeDesk, pedal: Pedal): number {
  const t = desk.clock.monotonic_s();
  const seq = desk.journal.append({ kind: 'pedal', t, at: desk.clock.wall_ms(), note: pedal });
  desk.outlet.tell('heard', [{ seq, t, press: pedal }]);
  return seq;
}

/**
 * Opens the link of every saved gauge, as after plugging each in: a gauge once entered is there again when the bench
 * is, and one whose port is not there yet connects when it appears. Does not wait; how each stands is told as it changes.
 */
export function plugInSaved(desk: GaugeDesk): void {
  for (const gauge of desk.gaugeRecords.list()) if (gauge.link !== undefined) connectAnew(desk, gauge);
}

/** A gauge that was put away for a moment. */
export function plugInAgain(desk: GaugeDesk, id: string): void {
  const gauge = desk.gaugeRecords.read(id);
  if (gauge !== undefined) connectAnew(desk, gauge);
}

/** What comes of it is told as the gauge's state. */
function connectAnew(desk: GaugeDesk, gauge: Gauge): void {
  if (gauge.link === undefined) void desk.gauges.disconnect(gauge.id);
  else void desk.gauges.connect(wantedOf(gauge, gauge.link));
}

const isConnected = (desk: GaugeDesk, id: string): boolean => desk.gauges.states().some((state) => state.gauge === id);

/** Whether the change of a record changes how its bytes become readings. */
const isReadOtherwise = (before: Gauge, now: Gauge): boolean =>
  before.link !== now.link || before.unit !== now.unit || JSON.stringify(before.format) !== JSON.stringify(now.format);

const simulatedPort = (link: string) => ({ link, name: 'Simulated gauge', simulated: true });

function saveGauge(desk: GaugeDesk, gauge: Gauge): Result<Gauge> {
  const problem = wrongLink(gauge) ?? wrongFormat(gauge);
  if (problem !== undefined) return fail(problem);
  const before = desk.gaugeRecords.read(gauge.id);
  if (before === undefined && desk.gaugeRecords.list().length >= mostGauges) return fail(tooMany);
  const saved = desk.gaugeRecords.save(gauge, instant(desk.clock));
  if (saved.ok) desk.outlet.tell('gauge-saved', saved.value);
  if (saved.ok && before !== undefined && isConnected(desk, gauge.id) && isReadOtherwise(before, gauge))
    connectAnew(desk, gauge);
  return saved;
}

function wrongLink(gauge: Gauge): Problem | undefined {
  if (gauge.link === undefined) return undefined;
  const link = linkInReach(gauge.link);
  return link.ok ? undefined : { ...link.problem, field: 'gauge.link' };
}

function wrongFormat(gauge: Gauge): Problem | undefined {
  if (gauge.format === undefined) return undefined;
  const format = parseLineFormat(gauge.format);
  return format.ok ? undefined : { ...format.problem, field: `gauge.format.${format.problem.field ?? ''}` };
}

async function plugIn(desk: GaugeDesk, id: string, at?: string): Promise<Result<typeof done>> {
  const known = desk.gaugeRecords.read(id);
  if (known === undefined) return fail(noGauge(id));
  if (known.link === undefined) return fail(noLink(known));
  if (at === undefined) {
    const plugged = await desk.gauges.connect(wantedOf(known, known.link));
    return plugged.ok ? ok(done) : plugged;
  }
  return plugInAt(desk, known, await withAdapter(desk, { ...known, link: movedTo(known.link, at) }, true));
}

/** At a port that a person has named. Where it cannot be opened there, the gauge stays as it was. */
async function plugInAt(desk: GaugeDesk, known: Gauge, moved: Gauge): Promise<Result<typeof done>> {
  const problem = wrongLink(moved);
  if (problem !== undefined) return fail(problem);
  const was = isConnected(desk, known.id);
  const plugged = await desk.gauges.connect({ ...wantedOf(moved, moved.link ?? ''), said: true });
  if (plugged.ok) {
    const saved = desk.gaugeRecords.save(moved, instant(desk.clock));
    return saved.ok ? ok(done) : saved;
  }
  if (was) connectAnew(desk, known);
  else await desk.gauges.disconnect(known.id);
  return plugged;
}

/** The gauge's own settings at another port. */
function movedTo(link: string, at: string): string {
  const [own, other] = [parseLink(link), parseLink(at)];
  if (!own.ok || !other.ok || !('path' in own.value) || !('path' in other.value)) return at;
  return linkText({ ...own.value, path: other.value.path });
}

/** The gauge with the adapter that hangs at its port now, where a person has chosen that port; else with the one it had. */
async function withAdapter(desk: GaugeDesk, { usb: _told, ...gauge }: Gauge, chosen = false): Promise<Gauge> {
  const before = desk.gaugeRecords.read(gauge.id);
  if (!chosen && before?.usb !== undefined && before.link === gauge.link) return { ...gauge, usb: before.usb };
  const link = gauge.link === undefined ? undefined : parseLink(gauge.link);
  if (link?.ok !== true || !('path' in link.value)) return gauge;
  const { path } = link.value;
  const usb = (await desk.gauges.ports()).map(pathAndUsb).find((port) => port.path === path)?.usb;
  return usb === undefined ? gauge : { ...gauge, usb };
}

/** The port of a gauge has got another number: the record says where it was last seen. */
export function noteMoved(
  records: GaugeRecords,
  clock: Clock,
  moved: { readonly id: string; readonly link: string },
): void {
  const gauge = records.read(moved.id);
  // Where the disk refuses, the journal tells; the gauge is found by its adapter again next time.
  if (gauge !== undefined) records.save({ ...gauge, link: moved.link }, instant(clock));
}

const wantedOf = ({ id, format, unit, usb }: Gauge, link: string): Wanted => ({
  id,
  link,
  ...(usb === undefined ? {} : { usb }),
  ...(format === undefined ? {} : { format }),
  ...(unit === undefined ? {} : { unit }),
});

/** More than any shop has in all its drawers; each is kept for ever, and read whenever they are listed. */
const mostGauges = 500;

const tooMany: Problem = {
  kind: 'too-many-gauges',
  field: 'gauge',
  sentence: `There are ${mostGauges} gauges in these records, and no more are taken.`,
  remedy: 'Change one that is not used any more instead of entering another.',
};

const noLink = (gauge: Gauge): Problem => ({
  kind: 'no-link',
  field: 'gauge.link',
  sentence: `${gauge.label} has no port yet.`,
  remedy: 'Choose the port it is plugged into.',
});
