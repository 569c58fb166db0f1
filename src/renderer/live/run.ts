import { create } from 'zustand';
import type { TraceEvent } from '../../shared/presentation/drawing/trace.ts';
import { type Capture, type CaptureEvent, startCapture, streamItem } from '../../shared/job/captures/capture.ts';
import type { StationMeasured } from '../../shared/measuring/backlash/measured.ts';
import { type Gauge, gaugeSeenOf } from '../../shared/job/records/gauge.ts';
import type { CaptureSettings, MeasuredResult, Stretch } from '../../shared/job/records/measurement.ts';
import type { Problem } from '../../shared/basics/result.ts';
import type { Heard } from '../../shared/gauges/heard.ts';
import { onHeard } from './slots.ts';
import { traceEventOf } from './traceEvents.ts';
import { listeners } from '../../shared/basics/listeners.ts';
import { noCase } from '../../shared/basics/noCase.ts';

/** A measurement being taken, as far as the screen draws it. It changes with what is found, never with each reading. */
export interface Run {
  readonly settings: CaptureSettings;
  readonly gauge: Gauge;
  /** Backlash: the stations that are done or refused, by their number. */
  readonly stations: readonly StationMeasured[];
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

interface Going {
  readonly capture: Capture;
  from: number | undefined;
  to: number;
  figuresAt: number;
  stop: () => void;
}

let going: Going | undefined;
let taken: RunTaken | undefined;
const found = listeners<[event: CaptureEvent, run: Run]>();

/** Calls its listener with everything found, for cues; the function returned stops that. */
export const onFound = found.on;

/** Starts listening for a measurement; one that was going is put aside. */
export function startRun(settings: CaptureSettings, gauge: Gauge): void {
  stopRun();
  const started = startCapture(settings, gaugeSeenOf(gauge));
  const blank = {
    settings,
    gauge,
    stations: [],
    result: undefined,
    found: [],
    marks: [],
    presses: 0,
    complete: false,
    held: false,
  };
  useRun.setState({ run: { ...blank, problem: started.ok ? undefined : started.problem } });
  if (!started.ok) return;
  const now: Going = { capture: started.value, from: undefined, to: 0, figuresAt: 0, stop: () => undefined };
  now.stop = onHeard((heard) => {
    // A pedal belongs to no gauge: it is heard by whatever is being measured.
    if ('press' in heard || heard.gauge === gauge.id) take(now, heard);
  });
  going = now;
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
  const { capture, from, to } = going;
  going = undefined;
  taken = from === undefined ? undefined : { stretch: { gauge: run.gauge.id, from, to }, settings: run.settings };
  change({ result: capture.finish(), held: true });
  return taken;
}

/** Takes a held measurement afresh, from the next reading on. */
export function restartRun(): void {
  const { run } = useRun.getState();
  if (run !== undefined) startRun(run.settings, run.gauge);
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
const figuresDue = (run: Run, since_ms: number): boolean =>
  run.settings.kind !== 'backlash' && since_ms >= figuresEvery_ms;

const pressesAfter = (presses: number, pressed: 'next' | 'again' | undefined): number => {
  if (pressed === undefined) return presses;
  return pressed === 'next' ? presses + 1 : 0;
};

function lay(now: Going, run: Run, events: readonly CaptureEvent[]): void {
  const fresh: Run = {
    ...run,
    stations: events.reduce(withStation, run.stations),
    result: run.settings.kind === 'backlash' ? undefined : now.capture.finish(),
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
    case 'station':
    case 'turn':
      return stations;
    default:
      throw noCase(event);
  }
}
