import type { GaugeState } from '../../../shared/contract/gauges.ts';
import type { GaugeReading } from '../../../shared/gauges/gaugeReading.ts';
import type { LineFormat } from '../../../shared/gauges/lineFormat.ts';
import { type Link, parseLink } from '../../../shared/gauges/link.ts';
import { unitNamed } from '../../../shared/basics/units.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { systemClock } from '../../clock.ts';
import { createGauges } from '../../gauges/gauges.ts';
import { readFormat } from '../formatFile.ts';
import { interruption } from '../../interruption.ts';
import { noJournal } from '../noJournal.ts';
import { numberOption, ofOption } from '../options.ts';
import { told } from '../told.ts';
import { type ExitCode, type Given, needed, noAnswer, type Output, type Verb, wrongUse } from '../verb.ts';

/** Every line a gauge sends, as it comes, without a bench and without a record. */
export const watch: Verb = {
  name: 'watch',
  ...told.watch,
  options: {
    link: { type: 'string' },
    format: { type: 'string' },
    unit: { type: 'string' },
    count: { type: 'string' },
  },
  async run(given, output) {
    const asked = askedOf(given);
    return asked.ok ? listen(asked.value, output) : wrongUse(output, asked.problem);
  },
};

interface Asked {
  readonly link: Link;
  readonly format: LineFormat;
  /** UCUM code that holds where the lines say none. */
  readonly unit: string | undefined;
  readonly count: number | undefined;
}

function askedOf(given: Given): Result<Asked> {
  const written = needed(given, 'link');
  if (!written.ok) return written;
  const link = parseLink(written.value);
  if (!link.ok) return fail(ofOption('link', link.problem));
  const format = readFormat(given.text('format') ?? 'auto');
  if (!format.ok) return format;
  const count = numberOption(given, 'count', { least: 1, most: 1e9, whole: true });
  if (!count.ok) return count;
  const word = given.text('unit');
  const unit = word === undefined ? undefined : unitNamed(word)?.ucum;
  if (word !== undefined && unit === undefined) return fail(noUnit(word));
  return ok({ link: link.value, format: format.value, count: count.value, unit });
}

async function listen({ link, format, unit, count = Infinity }: Asked, output: Output): Promise<ExitCode> {
  const interrupted = interruption();
  const enough = Promise.withResolvers<void>();
  const began_s = systemClock.monotonic_s();
  let written = 0;
  const gauges = createGauges({
    journal: noJournal(),
    clock: systemClock,
    onReadings: (readings) => {
      for (const reading of readings.slice(0, count - written)) output.answer(lineOf(reading, began_s));
      written += readings.length;
      if (written >= count) enough.resolve();
    },
    onState: sayChanges(output),
  });
  const opened = await gauges.connect({ id: 'watched', link, format, ...(unit === undefined ? {} : { unit }) });
  if (opened.ok) await Promise.race([interrupted.happened, enough.promise]);
  await gauges.close();
  interrupted.forget();
  return opened.ok ? 0 : noAnswer(output, opened.problem);
}

/** Seconds since watching began, to the microsecond: no clock here is better than that. */
const lineOf = ({ t, value, unit, raw, flags }: GaugeReading, began_s: number) => ({
  t: Number((t - began_s).toFixed(6)),
  value,
  unit,
  // A character a byte, so that nothing of what was sent is lost.
  raw: Buffer.from(raw).toString('latin1'),
  flags,
});

/** Says how the link stands whenever that changes. Why it did not open at all is the verb's own last word. */
function sayChanges(output: Output): (state: GaugeState) => void {
  let before = '';
  return ({ state, problem }) => {
    const now = state === 'live' || state === 'silent' ? words[state] : (problem?.sentence ?? '');
    if (now === before || now === '' || (before === '' && problem !== undefined)) return;
    output.say(now);
    before = now;
  };
}

const words = { live: 'The link is open.', silent: 'The gauge has stopped sending.' } as const;

const noUnit = (word: string): Problem => ({
  kind: 'wrong-option',
  field: '--unit',
  sentence: `--unit is "${word}".`,
  remedy: 'Give the unit the gauge is set to: mm, in, N.m or in-lb.',
});
