import type { Random } from '../seeded.ts';
import { during, together, type Fault } from './fault.ts';
import * as text from './textFaults.ts';
import { wrongBaud, wrongParity } from './wireFaults.ts';

const MAKERS = {
  half: (random) => text.halfLines(random),
  glued: (random) => text.gluedLines(random),
  doubled: (random) => text.doubledLines(random),
  split: (random) => text.splitLines(random),
  frozen: () => text.frozen(),
  silence: () => text.silence,
  flood: () => text.flood(),
  endless: () => text.endless,
  noise: (random) => text.binaryNoise(random),
  'wrong-baud': () => wrongBaud(),
  'wrong-parity': () => wrongParity(),
} as const satisfies Readonly<Record<string, (random: Random) => Fault>>;

export type FaultName = keyof typeof MAKERS;
export const FAULT_NAMES = Object.keys(MAKERS) as readonly FaultName[];

/**
 * Mishaps at the gauge or its cable rather than in its bytes. From `battery` or `error` on the gauge sends that word
 * in place of numbers, until it is `well`.
 */
const MISHAP_NAMES = ['unit', 'zero', 'unplug', 'replug', 'battery', 'error', 'well'] as const;
export type MishapName = (typeof MISHAP_NAMES)[number];

export const faultNamed = (name: FaultName, random: Random): Fault => MAKERS[name](random);

interface Mishap {
  readonly name: MishapName;
  readonly at_s: number;
}

/** What a list of faults asks for. */
export interface Misbehaviour {
  readonly fault: Fault;
  readonly mishaps: readonly Mishap[];
}

export class UnknownFault extends Error {}

const ITEM = /^([a-z-]+)(?:@(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?)?$/;

/**
 * Reads a list such as `half,frozen@10-15,zero@20`: a name, when it begins and when it ends, in seconds of sending.
 * Without times a fault is always there and a mishap happens at once. Throws UnknownFault with the item named.
 */
export function faultsFrom(list: string, random: Random): Misbehaviour {
  const faults: Fault[] = [];
  const mishaps: Mishap[] = [];
  for (const item of list
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '')) {
    const [, name = '', from = '0', until = 'Infinity'] = ITEM.exec(item) ?? [];
    if (Number(until) <= Number(from)) throw new UnknownFault(`"${item}" ends before it begins`);
    const mishap = MISHAP_NAMES.find((each) => each === name);
    const fault = FAULT_NAMES.find((each) => each === name);
    if (mishap !== undefined) mishaps.push({ name: mishap, at_s: Number(from) });
    else if (fault !== undefined) faults.push(during(Number(from), Number(until), faultNamed(fault, random)));
    else
      throw new UnknownFault(`no fault is called "${item}"; there are ${[...FAULT_NAMES, ...MISHAP_NAMES].join(', ')}`);
  }
  return { fault: together(faults), mishaps };
}
