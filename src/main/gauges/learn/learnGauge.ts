import { setTimeout as pause } from 'node:timers/promises';
import type { Learned } from '../../../shared/gauges/learn/learned.ts';
import { learnFormat } from '../../../shared/gauges/learn/learnFormat.ts';
import { frameHeard, likeLines, likeText, settingsToTry } from '../../../shared/gauges/learn/settings.ts';
import { askingOf, type Link, linkText, parseLink, type SerialLink } from '../../../shared/gauges/link.ts';
import { bytesOf } from '../../../shared/gauges/text.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { openPort } from '../links/openPort.ts';
import type { OpenPort } from '../links/port.ts';

interface LearnOptions {
  /** Where the gauge is; its settings are tried first. */
  readonly link: string;
  /** How long to listen in all. */
  readonly seconds: number;
  /** Told of each attempt when it begins and when it is over: nothing is tried unseen. */
  readonly onAttempt?: (attempt: Attempt) => void;
  readonly open?: OpenPort;
}

/** One listening with one set of settings, and what it heard. */
export interface Attempt {
  readonly link: string;
  readonly heard?: { readonly bytes: number; readonly likeText: number; readonly sample: Uint8Array };
}

export interface GaugeLearned extends Learned {
  /** The link with the settings under which the gauge is read. */
  readonly link: string;
  readonly attempts: readonly Attempt[];
}

const sampleBytes = 64;
const goodLines = 0.9;
/** The longest a wrong setting is listened to. */
const longestAttempt_s = 1.5;

/**
 * Listens to a gauge while its spindle is moved, tries other settings where it hears no text, and learns its lines.
 * Fails when the port cannot be opened; whether the answer can be trusted is in `sure` and `doubts`.
 */
export async function learnGauge(options: LearnOptions): Promise<Result<GaugeLearned>> {
  const link = parseLink(options.link);
  if (!link.ok) return link;
  if (link.value.kind === 'modbus') return fail(registersAreNamed);
  const ears = listener(options);
  const until_ms = performance.now() + options.seconds * 1000;
  const first_s = Math.min(longestAttempt_s, options.seconds / 3);
  const first = await ears.listen(link.value, first_s);
  if (!first.ok) return first;
  const settings = await betterSettings(first.value, link.value, ears, until_ms);
  const rest = await ears.listen(settings, (until_ms - performance.now()) / 1000);
  if (!rest.ok) return rest;
  // The first listening belongs to the same settings when nothing better was found.
  const bytes = settings === link.value ? joined(first.value, rest.value) : rest.value;
  return ok({ ...learnFormat(bytes), link: linkText(settings), attempts: ears.attempts });
}

/** Between two listenings the port was closed: the line that was cut there is kept apart from its other half. */
const joined = (one: Uint8Array, other: Uint8Array): Uint8Array => {
  const end = Math.max(one.lastIndexOf(0x0a), one.lastIndexOf(0x0d), one.lastIndexOf(0x03));
  const begin = other.findIndex((byte) => byte === 0x0a || byte === 0x0d || byte === 0x03);
  return begin < 0 ? Buffer.concat([one, other]) : Buffer.concat([one.subarray(0, end + 1), other.subarray(begin + 1)]);
};

interface Ears {
  readonly attempts: Attempt[];
  readonly listen: (link: Link, seconds: number) => Promise<Result<Uint8Array>>;
}

function listener({ open = openPort, onAttempt = () => undefined }: LearnOptions): Ears {
  const attempts: Attempt[] = [];
  return {
    attempts,
    listen: async (link, seconds) => {
      onAttempt({ link: linkText(link) });
      const pieces: Uint8Array[] = [];
      const port = await open(link, { bytes: (bytes) => keep(pieces, bytes), closed: () => undefined });
      if (!port.ok) return fail(port.problem);
      const asking = askAgain(link, port.value.write);
      await pause(Math.max(0, seconds) * 1000);
      clearInterval(asking);
      await port.value.close();
      const bytes = Buffer.concat(pieces);
      const heard = { bytes: bytes.length, likeText: likeText(bytes), sample: bytes.subarray(0, sampleBytes) };
      attempts.push({ link: linkText(link), heard });
      onAttempt({ link: linkText(link), heard });
      return ok(bytes);
    },
  };
}

/** More than this says nothing more about how lines are written: a flood is not kept in memory. */
const mostHeard = 200_000;

function keep(pieces: Uint8Array[], bytes: Uint8Array): void {
  if (pieces.reduce((sum, piece) => sum + piece.length, 0) < mostHeard) pieces.push(bytes);
}

function askAgain(link: Link, write: (bytes: Uint8Array) => void): NodeJS.Timeout | undefined {
  const { ask, every_ms = 200 } = askingOf(link);
  if (ask === undefined) return undefined;
  const question = bytesOf(ask);
  write(question);
  return setInterval(() => write(question), every_ms);
}

/** Shorter listening tells too little of a gauge that sends ten lines a second. */
const shortestAttempt_s = 0.25;

/**
 * The settings to go on with. Silence says nothing about settings where a button may have to be pressed, but it does where
 * the gauge was asked; so do bytes that are no text. First the frame is worked out from them, then other settings are
 * listened to, as many as the time allows and each for a bounded time. Nothing is sent but the question that was given.
 */
async function betterSettings(heard: Uint8Array, link: Link, ears: Ears, until_ms: number): Promise<Link> {
  if (link.kind !== 'serial' || likeLines(heard) >= goodLines) return link;
  const asked = link.ask !== undefined;
  if (heard.length === 0 && !asked) return link;
  const framed = withFrame(link, heard);
  const others = settingsToTry(link, asked).map((settings) => ({ ...link, ...settings }));
  const shortest_s = Math.max(shortestAttempt_s, asked ? (2.5 * (link.every_ms ?? 200)) / 1000 : 0);
  // A third of the time is kept for learning the lines once the settings are found.
  const time_s = ((until_ms - performance.now()) / 1000) * (2 / 3);
  const candidates = [...(framed === undefined ? [] : [framed]), ...others].slice(0, Math.floor(time_s / shortest_s));
  const each_s = Math.min(longestAttempt_s, time_s / candidates.length);
  let best: { readonly link: SerialLink; readonly score: number } = { link, score: likeLines(heard) };
  for (const candidate of candidates) {
    const found = await tryOne(candidate, ears, each_s);
    if (found.score > best.score) best = found;
    if (best.score >= goodLines) return best.link;
  }
  return best.link;
}

async function tryOne(link: SerialLink, ears: Ears, seconds: number): Promise<{ link: SerialLink; score: number }> {
  const heard = await ears.listen(link, seconds);
  // A setting this port does not take is no setting of this gauge.
  if (!heard.ok) return { link, score: 0 };
  const framed = withFrame(link, heard.value);
  if (framed === undefined) return { link, score: likeLines(heard.value) };
  return { link: framed, score: likeLines(heard.value.map((byte) => byte & 0x7f)) };
}

function withFrame(link: SerialLink, heard: Uint8Array): SerialLink | undefined {
  const frame = link.bits === 8 && link.parity === 'none' ? frameHeard(heard) : undefined;
  return frame === undefined ? undefined : { ...link, ...frame };
}

const registersAreNamed: Problem = {
  kind: 'nothing-to-learn',
  sentence: 'A gauge asked over Modbus sends no lines to learn from.',
  remedy: 'Take register, type and scale from its manual, and hold a reading against a known amount.',
};
