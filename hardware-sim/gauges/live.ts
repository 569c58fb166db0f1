import { faultSwitch, noFault, together, withFault, type Fault } from '../faults/fault.ts';
import type { Misbehaviour, MishapName } from '../faults/named.ts';
import { hold, moments, type Stretch } from '../hands/motion.ts';
import type { Chunk } from '../lines/chunk.ts';
import { serveLine, type Line, type LineKind } from '../lines/line.ts';
import { play, realPace, type Pace } from '../lines/play.ts';
import { PLAIN_LINE, type LineShape } from './lineShape.ts';
import { lineWriter, type Ailing } from './lineWriter.ts';
import { modbusServer } from '../lines/modbusServer.ts';
import { type AsRegisters, registersOf } from './registers.ts';
import type { Gauge } from './shown.ts';

/** When a gauge sends: of itself, when its button is pressed, when these bytes ask it, or as registers over Modbus. */
export type Sends = 'always' | 'on-button' | { readonly asked: string } | { readonly modbus: AsRegisters };

interface LiveSetup {
  readonly gauge: Gauge;
  readonly rate_Hz: number;
  readonly kind?: LineKind | undefined;
  readonly shape?: LineShape | undefined;
  readonly sends?: Sends | undefined;
  readonly misbehaviour?: Misbehaviour | undefined;
  readonly pace?: Pace | undefined;
}

/** A gauge on a line, sending on the real clock whatever the hand does with it; idle, it holds its last value. */
export interface LiveGauge {
  readonly link: string;
  readonly line: Line;
  /** Hands the gauge a motion; motions follow one another. Settles as its last reading goes out. */
  run(stretches: Iterable<Stretch>): Promise<void>;
  /** Sends one reading, where the gauge sends on its button. */
  pressSend(): void;
  pressZero(): void;
  pressUnit(): void;
  /** Lets something happen to the gauge or its cable. */
  mishap(name: MishapName): Promise<void>;
  /** What spoils the bytes from now on; `noFault` ends it. */
  setFault(fault: Fault): void;
  end(): Promise<void>;
}

interface Job {
  readonly stretches: Iterable<Stretch>;
  readonly done: () => void;
  readonly failed: (cause: Error) => void;
}

/** The hand's work without end: one motion after the other, and between them one idle reading at a time. */
function* working(jobs: Job[], rate_Hz: number): Generator<Stretch> {
  let value = 0;
  for (;;) {
    const job = jobs[0];
    if (job === undefined) {
      yield hold('idle', 1 / rate_Hz, value);
      continue;
    }
    for (const stretch of job.stretches) {
      yield stretch;
      value = stretch.at(stretch.seconds);
    }
    jobs.shift();
    job.done();
  }
}

/** Counts requests to send, from the button or in the bytes heard. */
function requests(sends: Sends): {
  readonly add: () => void;
  readonly hear: (bytes: Uint8Array) => void;
  readonly take: () => boolean;
} {
  const asked = typeof sends === 'object' && 'asked' in sends ? sends.asked : undefined;
  let open = 0;
  let heard = '';
  return {
    add: () => void (open += 1),
    hear(bytes) {
      if (asked === undefined) return;
      const parts = (heard + Buffer.from(bytes).toString('latin1')).split(asked);
      open += parts.length - 1;
      // Only what could still become a request is kept: a babbling peer does not fill the memory.
      heard = (parts.at(-1) ?? '').slice(-asked.length);
    },
    take() {
      if (sends === 'always') return true;
      if (open === 0) return false;
      open -= 1;
      return true;
    },
  };
}

/** Puts a gauge on a line of its own and lets it send. */
export async function liveGauge(setup: LiveSetup): Promise<LiveGauge> {
  const { gauge, rate_Hz } = setup;
  const line = await serveLine(setup.kind === undefined ? {} : { kind: setup.kind });
  const writer = lineWriter(setup.shape ?? PLAIN_LINE);
  const request = requests(setup.sends ?? 'always');
  const switched = faultSwitch();
  const jobs: Job[] = [];
  const ending = new AbortController();
  let ailing: Ailing | undefined;
  line.onBytes(request.hear);
  const fault = together([setup.misbehaviour?.fault ?? noFault, switched.fault]);
  let now = gauge.read(0);
  let now_s = 0;
  if (typeof setup.sends === 'object' && 'modbus' in setup.sends) {
    const isAiling = (): boolean => ailing !== undefined;
    const answer = modbusServer(registersOf(setup.sends.modbus, () => now, isAiling));
    // An answer goes out at once and not with the gauge's own beat; what spoils lines spoils it too.
    line.onBytes((bytes) => {
      for (const frame of answer(bytes))
        for (const chunk of fault({ t_s: now_s, bytes: frame })) void line.write(chunk.bytes);
    });
  }

  const ACTS: Readonly<Record<MishapName, () => void | Promise<void>>> = {
    zero: () => gauge.pressZero(),
    unit: () => gauge.pressUnit(),
    unplug: () => line.unplug(),
    replug: () => line.replug(),
    battery: () => void (ailing = 'lowBattery'),
    error: () => void (ailing = 'error'),
    well: () => void (ailing = undefined),
  };
  // One at a time: a cable is not put back before it is out.
  let acting: Promise<void> = Promise.resolve();
  function mishap(name: MishapName): Promise<void> {
    acting = acting.then(() => ACTS[name]());
    return acting;
  }

  function* chunks(): Generator<Chunk> {
    const pending = [...(setup.misbehaviour?.mishaps ?? [])].sort((one, two) => one.at_s - two.at_s);
    for (const { t_s, value } of moments(working(jobs, rate_Hz), rate_Hz)) {
      for (let next = pending[0]; next !== undefined && next.at_s <= t_s; next = pending[0]) {
        pending.shift();
        void mishap(next.name);
      }
      const shown = (now = gauge.read(value));
      now_s = t_s;
      if (request.take()) yield { t_s, bytes: ailing === undefined ? writer.write(shown) : writer.ail(ailing) };
      // A gauge that waits to be asked keeps time with empty chunks, which the line does not feel.
      else yield { t_s, bytes: new Uint8Array(0) };
    }
  }

  const playing = play(withFault(chunks(), fault), line, setup.pace ?? realPace(), ending.signal);
  return {
    link: line.link,
    line,
    run: (stretches) => new Promise((done, failed) => void jobs.push({ stretches, done, failed })),
    pressSend: request.add,
    pressZero: () => gauge.pressZero(),
    pressUnit: () => gauge.pressUnit(),
    mishap,
    setFault: switched.set,
    async end() {
      ending.abort();
      await playing;
      for (const job of jobs.splice(0)) job.failed(new Error('the gauge was taken away before the motion ended'));
      await acting;
      await line.end();
    },
  };
}
