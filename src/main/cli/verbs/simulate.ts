import { demoAxle } from '../../../../hardware-sim/axle/demo.ts';
import { faultsFrom, UnknownFault } from '../../../../hardware-sim/faults/named.ts';
import { ordinaryReach, type SimulatedGauges, simulatedGauges } from '../../../../hardware-sim/gauges/simulated.ts';
import { type Hand, steadyHand } from '../../../../hardware-sim/hands/hand.ts';
import { lineKindHere } from '../../../../hardware-sim/lines/line.ts';
import { seeded } from '../../../../hardware-sim/seeded.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { readFormat } from '../formatFile.ts';
import { interruption } from '../../interruption.ts';
import { numberOption, ofOption } from '../options.ts';
import { type GaugeHolding, holdingFor, linkTo } from '../simulate/holding.ts';
import { type GaugeKind, type GaugeWriting, writingFor } from '../simulate/writing.ts';
import { told } from '../told.ts';
import { type ExitCode, type Given, needed, type Output, type Verb, wrongUse } from '../verb.ts';

/** One gauge on the axle twin, on a line that any program can open, worked by a hand that never tires. */
export const simulate: Verb = {
  name: 'simulate',
  ...told.simulate,
  options: {
    gauge: { type: 'string' },
    format: { type: 'string' },
    modbus: { type: 'string' },
    rate: { type: 'string' },
    faults: { type: 'string' },
  },
  async run(given, output) {
    const asked = askedOf(given);
    return asked.ok ? serve(asked.value, output) : wrongUse(output, asked.problem);
  },
};

interface Asked {
  readonly kind: GaugeKind;
  readonly manner: Manner;
  readonly rate_Hz: number;
  readonly faults: string;
}

/** One seed, one axle: whoever starts this twice measures the same one. */
export const simulateSeed = 7;
const usualRate_Hz = 100;
/** Stations the hand rocks on its way round the gear. */
export const simulateStations = 8;

function askedOf(given: Given): Result<Asked> {
  const word = needed(given, 'gauge');
  if (!word.ok) return word;
  const kind = (['indicator', 'torque'] as const).find((one) => one === word.value);
  if (kind === undefined) return fail(noSuchGauge(word.value));
  const manner = mannerOf(given, kind);
  if (!manner.ok) return manner;
  const rate = numberOption(given, 'rate', { least: 0.1, most: 5000 });
  if (!rate.ok) return rate;
  const faults = given.text('faults') ?? '';
  const unknown = whichIsUnknown(faults) ?? (manner.value.is === 'registers' ? ofLines(faults) : undefined);
  if (unknown !== undefined) return fail(unknown);
  return ok({ kind, manner: manner.value, rate_Hz: rate.value ?? usualRate_Hz, faults });
}

/** It writes lines, or is asked for registers: one of the two. */
type Manner =
  | { readonly is: 'lines'; readonly writing: GaugeWriting }
  | { readonly is: 'registers'; readonly holding: GaugeHolding };

function mannerOf(given: Given, kind: GaugeKind): Result<Manner> {
  const options = given.text('modbus');
  if (options !== undefined) {
    if (given.text('format') !== undefined) return fail(oneOfBoth);
    if (lineKindHere() !== 'pty') return fail(noTerminal);
    const holding = holdingFor(options, kind, ordinaryReach[kind]);
    return holding.ok ? ok({ is: 'registers', holding: holding.value }) : fail(ofOption('modbus', holding.problem));
  }
  const file = needed(given, 'format');
  if (!file.ok) return file;
  const format = readFormat(file.value);
  if (!format.ok) return format;
  const writing = writingFor(format.value, kind);
  return writing.ok ? ok({ is: 'lines', writing: writing.value }) : fail(ofOption('format', writing.problem));
}

function whichIsUnknown(faults: string): Problem | undefined {
  try {
    faultsFrom(faults, seeded(simulateSeed));
    return undefined;
  } catch (error) {
    if (!(error instanceof UnknownFault)) throw error;
    const remedy = 'Write them like half,frozen@10-15,unplug@20.';
    return { kind: 'wrong-option', field: '--faults', sentence: `--faults: ${error.message}.`, remedy };
  }
}

async function serve({ kind, manner, rate_Hz, faults }: Asked, output: Output): Promise<ExitCode> {
  const interrupted = interruption();
  const axle = demoAxle(simulateSeed);
  const standing = axle.assemble(axle.thirdTrial);
  const { choice, traits } = made(manner);
  const { unit } = traits;
  const gauges = await simulatedGauges({
    axle: () => standing,
    seed: simulateSeed,
    // The other gauge lies in its drawer; it says no more than it must.
    rate_Hz: 1,
    ...(isLength(unit)
      ? { indicator: { ...choice, rate_Hz, faults, traits: { ...traits, unit } } }
      : { torque: { ...choice, rate_Hz, faults, traits: { ...traits, unit } } }),
  });
  const { link } = gauges[kind];
  output.answer({ link: manner.is === 'registers' ? linkTo(manner.holding, link) : link });
  output.say(manner.is === 'registers' ? 'Answering until Ctrl+C.' : 'Sending until Ctrl+C.');
  const working = keepWorking(gauges, { kind, rate_Hz, ended: interrupted.signal });
  await Promise.race([interrupted.happened, working]);
  await gauges.end();
  await working;
  interrupted.forget();
  return 0;
}

/** How the gauge is made and how it talks. */
function made(manner: Manner) {
  if (manner.is === 'registers') {
    const { unit, resolution, modbus } = manner.holding;
    // Registers are asked for over a serial line, never over TCP.
    return { choice: { sends: { modbus } }, traits: { unit, resolution } };
  }
  const { unit, resolution, sign, shape } = manner.writing;
  return { choice: { shape }, traits: { unit, resolution, sign } };
}

const isLength = (unit: GaugeWriting['unit']): unit is 'mm' | '[in_i]' => unit === 'mm' || unit === '[in_i]';

interface Work {
  readonly kind: GaugeKind;
  readonly rate_Hz: number;
  readonly ended: AbortSignal;
}

/** Rocks the ring gear from station to station, or turns the pinion, again and again. */
async function keepWorking({ indicator, torque }: SimulatedGauges, { kind, rate_Hz, ended }: Work): Promise<void> {
  const hand = handFor(rate_Hz);
  const work = (): Promise<unknown> =>
    kind === 'indicator' ? indicator.rock(simulateStations, { hand }) : torque.turn({ drag: 'pinion' });
  try {
    while (!ended.aborted) await work();
  } catch (error) {
    // Taking the gauge away ends its motion in the middle, which is what was asked for.
    if (!ended.aborted) throw error;
  }
}

const readingsInRest = 8;

/** The quickest hand that still gives this gauge its readings in every rest. */
function handFor(rate_Hz: number): Hand {
  const hands = (['fast', 'usual'] as const).map(steadyHand);
  const quick = hands.find(({ dwell_s, unevenness }) => dwell_s * (1 - unevenness) * rate_Hz >= readingsInRest);
  return quick ?? steadyHand('slow');
}

/** Some faults are about the ends of lines, and registers have none. */
function ofLines(faults: string): Problem | undefined {
  const name = /(?:^|,)\s*(glued|endless)\b/u.exec(faults)?.[1];
  if (name === undefined) return undefined;
  const sentence = `--faults: ${name} is about the ends of lines, and registers have none.`;
  return { kind: 'wrong-option', field: '--faults', sentence, remedy: 'Leave it out, or use half, noise or silence.' };
}

const noTerminal: Problem = {
  kind: 'wrong-option',
  field: '--modbus',
  sentence: 'Modbus is served on a pseudo-terminal, and only Linux has one that can be.',
  remedy: 'Use --format: its lines are served over TCP.',
};

const oneOfBoth: Problem = {
  kind: 'wrong-option',
  field: '--modbus',
  sentence: '--format and --modbus are both given.',
  remedy: 'A gauge writes lines or holds registers: leave one of them out.',
};

const noSuchGauge = (word: string): Problem => ({
  kind: 'wrong-option',
  field: '--gauge',
  sentence: `--gauge is "${word}".`,
  remedy: 'Use indicator or torque.',
});
