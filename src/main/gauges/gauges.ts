import type { GaugeState, Port } from '../../shared/contract/gauges.ts';
import type { GaugeReading } from '../../shared/gauges/gaugeReading.ts';
import { parseLineFormat } from '../../shared/gauges/lineFormat.ts';
import { type Link, linkText, parseLink } from '../../shared/gauges/link.ts';
import { modbusFormat } from '../../shared/gauges/modbus/modbusLine.ts';
import type { UsbIdentity } from '../../shared/gauges/usbIdentity.ts';
import { unitNamed } from '../../shared/basics/units.ts';
import { fail, ok, type Problem, type Result } from '../../shared/basics/result.ts';
import type { Clock } from '../clock.ts';
import type { Journal } from '../journal/journal.ts';
import { clockWatch } from './clockWatch.ts';
import { type GaugeLink, gaugeLink } from './gaugeLink.ts';
import type { KeyboardDoor } from './links/keyboard.ts';
import { openPort } from './links/openPort.ts';
import type { OpenPort } from './links/port.ts';
import { listPorts } from './ports.ts';
import { askedSeldom, openRecognised } from './recognise.ts';

const checkEvery_ms = 100;
/** A lost gauge is looked for more often, but each look at the list of ports may be a program run. */
const portsAtMostEvery_ms = 400;
/** Counts and rates on the screens follow this often while lines come in. */
const countsEvery = 5;

export interface GaugesOptions {
  readonly journal: Journal;
  readonly clock: Clock;
  /** Every line, at once, each with its row number in the journal. */
  readonly onReadings: (readings: readonly GaugeReading[]) => void;
  /** At once when a gauge's state changes, and twice a second while its counts do. */
  readonly onState: (state: GaugeState) => void;
  /** Where a gauge that types like a keyboard comes in; a bench with a window has one. */
  readonly keyboard?: KeyboardDoor;
  /** Adapters of all gauges the shop has, by id. */
  readonly adapters?: () => readonly { readonly id: string; readonly usb?: UsbIdentity | undefined }[];
  /** Told when a gauge was found at another port than its link says. */
  readonly onMoved?: (id: string, link: string) => void;
  /** Replaced in tests: no pseudo-terminal is in the system's list. */
  readonly listPorts?: () => Promise<Port[]>;
  /** Replaced in tests for what no pseudo-terminal can do. */
  readonly open?: OpenPort;
}

/** A gauge to be read: how it is reached, how its lines are read, and its own unit where the lines say none. */
export interface Wanted {
  readonly id: string;
  readonly link: string | Link;
  /** A line format, or `auto` (the default). */
  readonly format?: unknown;
  /** UCUM code. */
  readonly unit?: string;
  /** Its adapter: the gauge is then looked for by it, at whatever port. */
  readonly usb?: UsbIdentity;
  /** A person said that it is at the link's own port. */
  readonly said?: boolean;
}

/** All gauges on the bench. */
export interface Gauges {
  /**
   * Connects a gauge and keeps it connected until `disconnect`. Settles after the first attempt; when that
   * failed the result says why, and the bench goes on trying all the same (unless the link, format or unit is wrong).
   */
  readonly connect: (wanted: Wanted) => Promise<Result<GaugeState>>;
  readonly disconnect: (id: string) => Promise<void>;
  readonly states: () => GaugeState[];
  readonly ports: () => Promise<Port[]>;
  readonly close: () => Promise<void>;
}

export function createGauges(options: GaugesOptions): Gauges {
  const links = new Map<string, GaugeLink>();
  /** Those that are or will be in `links`: many may be asked for before the first has opened. */
  const pluggedIn = new Set<string>();
  const look = options.listPorts ?? (() => listPorts());
  const open = openingBy(options, askedSeldom(look, portsAtMostEvery_ms));
  const timer = setInterval(roundOf(options, links), checkEvery_ms);
  const inTurn = oneAtATime<GaugeLink>();
  const takeOut = async (id: string): Promise<void> => {
    const link = links.get(id);
    links.delete(id);
    await link?.end();
  };
  const disconnect = (id: string): Promise<void> => {
    pluggedIn.delete(id);
    return takeOut(id);
  };
  const connect = async (wanted: Wanted): Promise<Result<GaugeState>> => {
    const settings = settingsOf(wanted);
    if (!settings.ok) return settings;
    if (!pluggedIn.has(wanted.id) && pluggedIn.size >= mostPluggedIn) return fail(tooManyPluggedIn);
    pluggedIn.add(wanted.id);
    const { journal, clock, onReadings, onState } = options;
    const link = await inTurn.run(wanted.id, async () => {
      await takeOut(wanted.id);
      const told = { gauge: wanted.id, journal, clock, onReadings, onState };
      const fresh = gaugeLink({ ...settings.value, ...told, open: open(wanted, settings.value.link) });
      links.set(wanted.id, fresh);
      return fresh;
    });
    const problem = await link.firstAttempt;
    return problem === undefined ? ok(link.state()) : fail(problem);
  };
  return {
    connect,
    disconnect,
    states: () => [...links.values()].map((link) => link.state()),
    ports: () => look(),
    close: async () => {
      clearInterval(timer);
      await inTurn.settled();
      await Promise.all([...links.keys()].map(disconnect));
    },
  };
}

/** How a gauge's port is opened: as its link says, or wherever its adapter is found. */
function openingBy(options: GaugesOptions, ports: () => Promise<readonly Port[]>) {
  const open = openerFor(options);
  return ({ id, usb, said = false }: Wanted, link: Link): OpenPort => {
    if (usb === undefined) return open;
    const others = () => (options.adapters?.() ?? []).flatMap((one) => (one.id === id ? [] : (one.usb ?? [])));
    const onMoved = (path: string): void => options.onMoved?.(id, linkText({ ...link, path } as Link));
    return openRecognised(open, { own: usb, others, ports, said, onMoved });
  };
}

/** What is looked at ten times a second: silence, the clock, and now and then the counts. */
function roundOf({ journal, clock, onState }: GaugesOptions, links: ReadonlyMap<string, GaugeLink>): () => void {
  const clocks = clockWatch(clock);
  const counted = new Map<string, number>();
  let round = 0;
  const tellCounts = (): void => {
    for (const [id, link] of links) {
      const state = link.state();
      const count = state.readings + state.unreadable;
      if (counted.get(id) !== count) onState(state);
      counted.set(id, count);
    }
  };
  return () => {
    for (const link of links.values()) link.check();
    const note = clocks();
    if (note !== undefined) journal.append({ kind: 'clock', t: clock.monotonic_s(), at: clock.wall_ms(), note });
    round += 1;
    if (round % countsEvery === 0) tellCounts();
  };
}

/** Work under one name in the order in which it was asked: asked twice at once, the second takes the place of the first. */
function oneAtATime<Done>() {
  const turns = new Map<string, Promise<Done>>();
  return {
    run: (name: string, work: () => Promise<Done>): Promise<Done> => {
      const turn = (turns.get(name) ?? Promise.resolve()).then(work);
      turns.set(name, turn);
      return turn;
    },
    settled: () => Promise.all(turns.values()),
  };
}

function openerFor({ open = openPort, keyboard }: GaugesOptions): OpenPort {
  if (keyboard === undefined) return open;
  return async (link, listener) => (link.kind === 'keyboard' ? keyboard.open(listener) : open(link, listener));
}

type Settings = Pick<Parameters<typeof gaugeLink>[0], 'link' | 'format' | 'ownUnit'>;

function settingsOf(wanted: Wanted): Result<Settings> {
  const link = typeof wanted.link === 'string' ? parseLink(wanted.link) : ok(wanted.link);
  if (!link.ok) return link;
  const format = parseLineFormat(wanted.format ?? 'auto');
  if (!format.ok) return format;
  if (wanted.unit !== undefined && unitNamed(wanted.unit)?.ucum !== wanted.unit) return fail(wrongUnit(wanted.unit));
  return ok({
    link: link.value,
    // What an answer in registers becomes is ours to say, whatever format the record has.
    format: link.value.kind === 'modbus' ? modbusFormat(link.value) : format.value,
    ...(wanted.unit !== undefined && { ownUnit: wanted.unit }),
  });
}

/** Each that is not there is looked for four times a second. */
const mostPluggedIn = 64;

const tooManyPluggedIn: Problem = {
  kind: 'too-many-gauges',
  sentence: `${mostPluggedIn} gauges are plugged in, and no more are listened to at a time.`,
  remedy: 'Unplug one that is not used.',
};

const wrongUnit = (unit: string): Problem => ({
  kind: 'wrong-unit',
  field: 'unit',
  sentence: `"${unit}" is not the UCUM code of a unit this bench knows.`,
  remedy: 'Choose the unit the gauge is set to, for example mm, [in_i], N.m or [lbf_av].[in_i].',
});
