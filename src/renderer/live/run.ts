import { create } from 'zustand';
import type { TraceEvent } from '../../shared/presentation/drawing/trace.ts';
import { type Capture, type CaptureEvent, startCapture, streamItem } from '../../shared/job/captures/capture.ts';
import type { StationMeasured } from '../../shared/measuring/backlash/measured.ts';
import { type Gauge, gaugeSeenOf } from '../../shared/job/records/gauge.ts';
import { stemmedStations } from '../../shared/job/captures/stem.ts';
import type { CaptureSettings, MeasuredResult, Stretch } from '../../shared/job/records/measurement.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Heard } from '../../shared/gauges/heard.ts';
import { onHeard } from './slots.ts';
import { traceEventOf } from './traceEvents.ts';
import { seconds } from '../../shared/basics/quantity.ts';
import { listeners } from '../../shared/basics/listeners.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** A measurement being taken, as far as the screen draws it. It changes with what is found, never with each reading. */
export interface Run {
  readonly settings: CaptureSettings;
  readonly gauge: Gauge;
  /** Backlash: the stations that are done or refused, by their number. */
  readonly stations: readonly StationMeasured[];
  /** How many stations, of a backlash or a runout, were taken before it was broken off and taken up again. */
  readonly before: number;
  /** The figures so far. Backlash has them only when it is held: closing its last station is part of finishing. */
  readonly result: MeasuredResult | undefined;
  /** What was found last, newest last. */
  readonly found: readonly CaptureEvent[];
  readonly marks: readonly TraceEvent[];
  /** Pedal strokes since it began or was taken anew. */
  readonly presses: number;
  /** Every station wanted is there. */
  readonly complete: boolean;
  /** It no longer listens: its rows are being recorded, or wait to be after a failure. */
  readonly held: boolean;
  readonly problem: Problem | undefined;
}

export const useRun = create<{ readonly run: Run | undefined }>()(() => ({ run: undefined }));

/** The trace shows half a minute; older marks have left it. */
const mostMarks = 60;
const mostFound = 40;
/** How often the figures are worked out while readings come and nothing is found, in milliseconds. */
const figuresEvery_ms = 250;

/** A measurement that was broken off: where its readings lie, and what it came to. */
export interface Begun {
  readonly stretch: Stretch;
  /** Of a backlash, the stations that are done. */
  readonly stations: readonly StationMeasured[];
  /** Of anything else, what was heard of it, one list for each part in which somebody listened. */
  readonly heard?: readonly (readonly Heard[])[];
}

interface Going {
  readonly capture: Capture;
  readonly gauge: string;
  from: number | undefined;
  to: number;
  readonly breaks: { readonly from: number; readonly to: number }[];
  /** Nobody has listened since `to`. */
  broken: boolean;
  figuresAt: number;
  stop: () => void;
}

let going: Going | undefined;
let taken: RunTaken | undefined;
const found = listeners<[event: CaptureEvent, run: Run]>();

/** Calls its listener with everything found, for cues; the function returned stops that. */
export const onFound = found.on;

/**
 * Starts listening for a measurement; one that was going is put aside.
 * @param begun what was taken before it was broken off; it goes on at the next station.
 */
export function startRun(settings: CaptureSettings, gauge: Gauge, begun?: Begun): void {
  stopRun();
  const started = startCapture(settings, gaugeSeenOf(gauge), begun?.stations);
  const stations =
    begun === undefined || settings.kind !== 'backlash'
      ? []
      : stemmedStations(begun.stations, settings.basis, settings.stem);
  const blank = {
    settings,
    gauge,
    stations,
    before: stations.length,
    result: undefined,
    found: [],
    marks: [],
    presses: 0,
    complete: false,
    held: false,
  };
  useRun.setState({ run: { ...blank, problem: started.ok ? undefined : started.problem } });
  if (!started.ok) return;
  const now: Going = { ...startOf(gauge.id, begun), capture: started.value, figuresAt: 0, stop: () => undefined };
  now.stop = onHeard((heard) => {
    // A pedal belongs to no gauge: it is heard by whatever is being measured.
    if ('press' in heard || heard.gauge === gauge.id) take(now, heard);
  });
  going = now;
  for (const part of begun?.heard ?? []) hearAgain(now, part);
  if (begun?.heard !== undefined) afterHearing(now, settings);
}

/** One part of what was heard before, as it was heard then: nobody is told of it by a cue. */
function hearAgain({ capture }: Going, part: readonly Heard[]): void {
  for (const [index, heard] of part.entries()) {
    const { run } = useRun.getState();
    const item = run === undefined ? undefined : streamItem(heard, run.settings.kind, run.gauge);
    if (run === undefined || item?.ok !== true || item.value === undefined) continue;
    if (index === 0 && run.found.length > 0) capture.breakOff();
    const events = capture.step(item.value);
    const pressed = 'press' in heard ? heard.press : undefined;
    if (events.length === 0 && pressed === undefined) continue;
    change({ found: [...run.found, ...events].slice(-mostFound), presses: pressesAfter(run.presses, pressed) });
  }
}

/** A runout at stations goes on at the next; a turn or a pull is a whole, and waits to be recorded or taken again. */
function afterHearing({ capture }: Going, settings: CaptureSettings): void {
  if (settings.kind !== 'runout' || settings.mode !== 'stations') return void holdRun();
  const last = useRun.getState().run?.found.findLast(({ kind }) => kind === 'station');
  change({
    result: capture.soFar(),
    before: last?.kind === 'station' ? last.number : 0,
    found: last === undefined ? [] : [last],
  });
  capture.breakOff();
}

/** A measurement that is taken up again has its first readings where it was begun, and a break since the last of them. */
function startOf(gauge: string, begun: Begun | undefined): Pick<Going, 'gauge' | 'from' | 'to' | 'breaks' | 'broken'> {
  if (begun === undefined) return { gauge, from: undefined, to: 0, breaks: [], broken: false };
  const { from, to, breaks = [] } = begun.stretch;
  return { gauge, from, to, breaks: [...breaks], broken: true };
}

/** Stops listening and forgets what was taken; recorded measurements are elsewhere. */
export function stopRun(): void {
  going?.stop();
  going = undefined;
  taken = undefined;
  useRun.setState({ run: undefined });
}

/** What the bench needs to work a measurement out again from its journal. */
interface RunTaken {
  readonly stretch: Stretch;
  readonly settings: CaptureSettings;
}

/**
 * Stops listening, keeps the figures on the screen, and says which rows of the journal they rest on. Asked again it
 * says the same: a bench that could not be reached just then must not cost anybody their measurement.
 */
export function holdRun(): RunTaken | undefined {
  const { run } = useRun.getState();
  if (going === undefined || run === undefined) return taken;
  going.stop();
  const { capture } = going;
  const stretch = stretchOf(going);
  going = undefined;
  taken = stretch === undefined ? undefined : { stretch, settings: run.settings };
  change({ result: capture.finish(), held: true });
  return taken;
}

function stretchOf({ gauge, from, to, breaks }: Going): Stretch | undefined {
  if (from === undefined) return undefined;
  return { gauge, from, to, ...(breaks.length === 0 ? {} : { breaks: [...breaks] }) };
}

/** How far the measurement has come, for whoever takes it up again; undefined while there is nothing that would be missed. */
export function runSoFar(): (Begun & RunTaken) | undefined {
  const { run } = useRun.getState();
  const stretch = going === undefined ? undefined : stretchOf(going);
  if (run === undefined || going === undefined || stretch === undefined || !going.capture.isBegun()) return undefined;
  return { stretch, settings: run.settings, stations: going.capture.taken() };
}

/** Takes a held measurement afresh, from the next reading on. */
export function restartRun(): void {
  const { run } = useRun.getState();
  if (run === undefined) return;
  startRun(run.settings, run.gauge);
  const afresh = useRun.getState().run;
  // Whoever noted how far it had come hears that this is over.
  if (afresh !== undefined) found.tell({ kind: 'again', t: seconds(0) }, afresh);
}

const change = (change: Partial<Run>): void =>
  useRun.setState(({ run }) => ({ run: run === undefined ? undefined : { ...run, ...change } }));

function take(now: Going, heard: Heard): void {
  const { run } = useRun.getState();
  if (run === undefined || run.complete) return;
  const item = streamItem(heard, run.settings.kind, run.gauge);
  if (!item.ok) {
    change({ problem: item.problem });
    return;
  }
  if (item.value === undefined) return;
  if (now.broken && heard.seq <= now.to) return;
  if (now.broken) now.breaks.push({ from: now.to + 1, to: heard.seq - 1 });
  now.broken = false;
  now.from ??= heard.seq;
  now.to = heard.seq;
  const events = now.capture.step(item.value);
  const pressed = 'press' in heard ? heard.press : undefined;
  const clock = performance.now();
  if (events.length === 0 && pressed === undefined && !figuresDue(run, clock - now.figuresAt)) return;
  now.figuresAt = clock;
  lay(now, { ...run, presses: pressesAfter(run.presses, pressed) }, events);
}

/** Backlash grows only with what is found; a full movement or a running mean grows with every reading. */
const figuresDue = (run: Run, since_ms: number): boolean => !byRocks(run) && since_ms >= figuresEvery_ms;

/** Rocks and strokes are told as they are found; closing the place they are made at is part of finishing. */
const byRocks = ({ settings }: Run): boolean => settings.kind === 'backlash' || settings.kind === 'play';

const pressesAfter = (presses: number, pressed: 'next' | 'again' | undefined): number => {
  if (pressed === undefined) return presses;
  return pressed === 'next' ? presses + 1 : 0;
};

function lay(now: Going, run: Run, events: readonly CaptureEvent[]): void {
  const fresh: Run = {
    ...run,
    stations: events.reduce(withStation, run.stations),
    result: now.capture.soFar(),
    found: [...run.found, ...events].slice(-mostFound),
    marks: [...run.marks, ...events.flatMap((event) => traceEventOf(event) ?? [])].slice(-mostMarks),
    complete: events.some((event) => event.kind === 'all-done'),
  };
  useRun.setState({ run: fresh });
  for (const event of events) found.tell(event, fresh);
}

/** A station taken anew loses its number, and so does what was taken after it. */
function withStation(stations: readonly StationMeasured[], event: CaptureEvent): readonly StationMeasured[] {
  switch (event.kind) {
    case 'station-done':
    case 'station-refused':
      return [...stations.slice(0, event.station - 1), event.measured];
    case 'taken-anew':
      return stations.slice(0, event.station - 1);
    case 'again':
    case 'all-done':
    case 'gap':
    case 'landed':
    case 'let-go':
    case 'lifted':
    case 'nothing-measured':
    case 'pulling':
    case 'rest-found':
    case 'rock-counted':
    case 'spread-rest':
    case 'station':
    case 'turn':
      return stations;
    default:
      throw noCase(event);
  }
}
