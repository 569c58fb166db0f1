import { z } from 'zod';
import { measureItems, type MeasureSettings } from '../../../shared/job/captures/measureItems.ts';
import { parseLength, parseQuantity, parseTorque } from '../../../shared/basics/parse.ts';
import { degrees, mm, seconds } from '../../../shared/basics/quantity.ts';
import { type Dimension, toInside, unitNamed } from '../../../shared/basics/units.ts';
import { pullScale } from '../../../shared/measuring/torque/pullScale.ts';
import type { StreamItem } from '../../../shared/measuring/reading.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { readJsonLines } from '../jsonLines.ts';
import { choice } from '../options.ts';
import { told } from '../told.ts';
import { type Given, needed, noAnswer, type Verb, wrongUse } from '../verb.ts';
import { readText } from '../wholeFile.ts';

const kinds = ['backlash', 'runout', 'torque'] as const;
type Kind = (typeof kinds)[number];
const dimensions: Record<Kind, Dimension> = { backlash: 'length', runout: 'length', torque: 'torque' };

const lineSchema = z.union([
  z.strictObject({ t: z.number(), pedal: z.enum(['next', 'again']) }),
  // `watch` writes raw bytes and flags beside the reading; measuring needs neither.
  z.strictObject({
    t: z.number(),
    value: z.number(),
    unit: z.string().refine((unit) => unitNamed(unit) !== undefined, { error: 'no unit we know' }),
    angle_deg: z.number().optional(),
    raw: z.string().optional(),
    flags: z.array(z.string()).optional(),
    gauge: z.string().optional(),
  }),
  z.strictObject({
    t: z.number(),
    value: z.strictObject({ none: z.string() }),
    unit: z.string().optional(),
    raw: z.string().optional(),
    flags: z.array(z.string()).optional(),
    gauge: z.string().optional(),
  }),
]);
type Line = z.infer<typeof lineSchema>;

/** The figures of a stream of readings, with verdicts against the limits given. */
export const measure: Verb = {
  name: 'measure',
  ...told.measure,
  words: 1,
  options: Object.fromEntries(
    [
      'in',
      'resolution',
      'gauge-u',
      'hysteresis',
      'arm',
      'arm-u',
      'min',
      'max',
      'max-variation',
      'max-runout',
      'rule',
      'basis',
    ].map((name) => [name, { type: 'string' as const }]),
  ),
  async run(given, output) {
    const kind = kinds.find((one) => one === given.words[0]);
    if (kind === undefined) return wrongUse(output, badWord(given.words[0] ?? ''));
    const path = needed(given, 'in');
    if (!path.ok) return wrongUse(output, path.problem);
    const settings = settingsFrom(given, kind);
    if (!settings.ok) return wrongUse(output, settings.problem);
    const text = readText(path.value, '--in');
    if (!text.ok) return wrongUse(output, text.problem);
    const lines = readJsonLines<Line>(text.value, lineSchema);
    if (!lines.ok) return wrongUse(output, lines.problem);
    const arm = kind === 'torque' ? settings.value.arm : undefined;
    const items = itemsOf(lines.value, dimensions[kind], arm);
    if (!items.ok) return wrongUse(output, items.problem);
    const { answer, measured } = measureItems(items.value, settings.value);
    output.answer(answer);
    return measured ? 0 : noAnswer(output, nothing(kind));
  },
};

function settingsFrom(given: Given, kind: Kind): Result<MeasureSettings> {
  const arm = armFrom(given, kind);
  if (!arm.ok) return arm;
  const quantity = (name: string): Result<number | undefined> => {
    const written = given.text(name);
    if (written === undefined) return ok(undefined);
    if (dimensions[kind] === 'length') return parseLength(written, `--${name}`);
    // What a pull scale resolves is a force; at its arm that is a torque like its readings.
    const force = arm.value === undefined ? undefined : parseQuantity(written, 'force', `--${name}`);
    if (force?.ok === true && arm.value !== undefined)
      return ok(pullScale(toInside(force.value.value, force.value.unit), arm.value));
    return parseTorque(written, `--${name}`);
  };
  const numbers: Record<string, number> = {};
  for (const name of ['resolution', 'gauge-u', 'hysteresis', 'min', 'max', 'max-variation', 'max-runout']) {
    const read = quantity(name);
    if (!read.ok) return read;
    const low = tooLow(name, read.value);
    if (low !== undefined) return fail(low);
    if (read.value !== undefined) numbers[name] = read.value;
  }
  if (numbers['hysteresis'] !== undefined && (kind === 'torque' || numbers['hysteresis'] < 0))
    return fail(noHysteresis(kind));
  const { min, max } = numbers;
  if (min !== undefined && max !== undefined && min > max) return fail(ends);
  const rule = choice(given, 'rule', ['simple', 'guarded'], 'simple');
  if (!rule.ok) return rule;
  const basis = choice(given, 'basis', ['running', 'starting'], 'running');
  if (!basis.ok) return basis;
  return ok({
    kind,
    rule: rule.value,
    basis: basis.value,
    limits: numbers,
    ...(numbers['resolution'] === undefined ? {} : { resolution: numbers['resolution'] }),
    ...(numbers['gauge-u'] === undefined ? {} : { gaugeU: numbers['gauge-u'] }),
    ...(numbers['hysteresis'] === undefined ? {} : { hysteresis: numbers['hysteresis'] }),
    ...(arm.value === undefined ? {} : { arm: arm.value }),
  });
}

/** The arm of a pull scale, where one is given. */
function armFrom(given: Given, kind: Kind): Result<MeasureSettings['arm']> {
  const [length, u] = [given.text('arm'), given.text('arm-u')];
  if (length === undefined) return ok(undefined);
  if (kind !== 'torque') return fail(armless);
  const read = parseLength(length, '--arm');
  const known = u === undefined ? ok(mm(0)) : parseLength(u, '--arm-u');
  if (!read.ok) return read;
  if (!known.ok) return known;
  const low = tooLow('arm', read.value) ?? tooLow('arm-u', known.value);
  return low === undefined ? ok({ length: read.value, u: known.value }) : fail(low);
}

/** What a gauge shows, and the arm it pulls at, are longer than nothing; how well they are known is no less than it. */
function tooLow(name: string, value: number | undefined): Problem | undefined {
  const above = name === 'resolution' || name === 'arm';
  const atLeast = name === 'gauge-u' || name === 'arm-u';
  if (value === undefined || (above ? value > 0 : !atLeast || value >= 0)) return undefined;
  return {
    kind: 'wrong-option',
    field: `--${name}`,
    sentence: `--${name} is ${above ? 'not above' : 'below'} zero.`,
    remedy: 'Leave it out where it is not known.',
  };
}

/** Readings in the unit used inside, a pull at its arm as the torque it makes; a line that was no reading is passed over, as it is everywhere. */
function itemsOf(
  lines: readonly Line[],
  dimension: Dimension,
  arm: MeasureSettings['arm'],
): Result<readonly StreamItem[]> {
  const items: StreamItem[] = [];
  for (const [index, line] of lines.entries()) {
    const t = seconds(line.t);
    if ('pedal' in line) items.push({ t, pedal: line.pedal });
    else if (typeof line.value === 'number') {
      const unit = unitNamed(line.unit ?? '');
      const read = unit?.dimension === 'force' && arm !== undefined ? 'torque' : unit?.dimension;
      if (unit === undefined || read !== dimension) return fail(wrongUnit(index + 1, line.unit ?? ''));
      const angle = 'angle_deg' in line && line.angle_deg !== undefined ? { angle: degrees(line.angle_deg) } : {};
      const inside = toInside(line.value, unit);
      const pulled = unit.dimension === 'force' && arm !== undefined;
      items.push({ t, value: pulled ? pullScale(inside, arm) : inside, ...angle });
    }
  }
  return ok(items);
}

const badWord = (word: string): Problem => ({
  kind: 'wrong-word',
  field: 'word',
  sentence: `"${word}" cannot be measured.`,
  remedy: `Say ${kinds.join(', ')}.`,
});
const ends: Problem = {
  kind: 'wrong-limits',
  field: '--min',
  sentence: '--min lies above --max.',
  remedy: 'Exchange them.',
};
const noHysteresis = (kind: Kind): Problem =>
  kind === 'torque'
    ? {
        kind: 'wrong-option',
        field: '--hysteresis',
        sentence: 'A hysteresis is stated for an indicator; a torque gauge has none here.',
        remedy: 'Leave it out, or put it into --gauge-u.',
      }
    : {
        kind: 'wrong-option',
        field: '--hysteresis',
        sentence: 'A hysteresis is a width and lies at or above nought.',
        remedy: 'Give what the indicator shows differently going in and coming out.',
      };
const armless: Problem = {
  kind: 'wrong-option',
  field: '--arm',
  sentence: 'An arm belongs to a torque read with a pull scale.',
  remedy: 'Leave it out, or measure torque.',
};
const wrongUnit = (line: number, unit: string): Problem => ({
  kind: 'bad-line',
  field: `line ${line}, unit`,
  sentence: `Line ${line}: ${unit} is a unit of something else.`,
  remedy: 'Give readings of what is measured.',
});
const nothing = (kind: Kind): Problem => ({
  kind: 'nothing-measured',
  sentence: `No ${kind} could be made of these readings.`,
  remedy: 'The reasons stand in the answer.',
});
