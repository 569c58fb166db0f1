import { unitNamed } from '../basics/units.ts';
import { signsJoined } from './fields.ts';
import type { LineReading, Unreadable, WhyUnreadable } from './gaugeReading.ts';
import type { LineFormat } from './lineFormat.ts';
import { type NumberRules, readNumber, type WrittenNumber } from './numberText.ts';
import { isExtreme, type Status, statusLookup } from './statusWords.ts';
import { withoutFrame } from './text.ts';

/**
 * Reads a line of which only this is known: it holds one number, perhaps with words before it, a unit before or
 * after, and a state. Anything that could be read in two ways is refused: two lines glued together, a list,
 * a unit nobody here knows.
 */
export function freeReader(format: LineFormat): (text: string) => LineReading | Unreadable {
  const statusOf = statusLookup(format);
  const unitOf = unitLookup(format.unit.is === 'beside' ? format.unit.words : undefined);
  return (text) => {
    const words = wordsOf(withoutFrame(text), format.decimal).flatMap((word) => partsOf(word, format));
    const status = words.map((word) => (word.number === undefined ? statusOf(word.text) : undefined));
    const bad = status.find((each) => each !== undefined && each !== 'low-battery');
    if (bad !== undefined) return { why: bad };
    return readWords(
      words.filter((_, i) => status[i] === undefined),
      status,
      unitOf,
    );
  };
}

interface Word {
  readonly text: string;
  readonly number?: WrittenNumber;
}

type UnitOf = (word: string) => string | undefined;

function readWords(
  words: readonly Word[],
  status: readonly (Status | undefined)[],
  unitOf: UnitOf,
): LineReading | Unreadable {
  const at = words.findIndex((word) => word.number !== undefined);
  const number = words[at]?.number;
  if (number === undefined) return refuse('no-number');
  if (words.some((word, i) => i !== at && startsLikeNumber.test(word.text))) return refuse('several-numbers');
  const before = words.slice(0, at).map((word) => word.text);
  const after = words.slice(at + 1).map((word) => word.text);
  if ([...before, ...after].some(isExtreme)) return refuse('held');
  const trailing = unitIn(after, unitOf);
  if (after.length > 0 && trailing === undefined) return refuse('unknown-unit');
  const { unit: leading, label } = unitBefore(before, unitOf);
  if (label.some((word) => unitOf(word) !== undefined || otherUnits.test(word))) return refuse('unknown-unit');
  if (leading !== undefined && trailing !== undefined && leading !== trailing) return refuse('unknown-unit');
  const unit = trailing ?? leading;
  return {
    ...number,
    ...(unit !== undefined && { unit }),
    label: label.join(' '),
    flags: status.includes('low-battery') ? ['low-battery'] : [],
  };
}

/** A whole number or the ruins of one ("0.1230.456"): never a label, never a unit. */
const startsLikeNumber = /^[+\-.,]*\d|^[+\-.,]+$/u;

const refuse = (why: WhyUnreadable): Unreadable => ({ why });

/** A unit may be several words: "lbf in", "N m". All of what follows the number has to be one unit. */
const unitIn = (words: readonly string[], unitOf: UnitOf): string | undefined =>
  words.length === 0 ? undefined : (unitOf(words.join('-')) ?? unitOf(words.join('')));

/** Words of units that are no units of ours, or only half of one ("lbf" of "lbf in"): no labels. */
const otherUnits = /^(?:n|kn|m|cm|mil|thou|ft|lbs?|lbf|ozf?|kgf?|gf|%)$/iu;

/** The unit right before the number, in two words or one, and what stands before it. */
function unitBefore(
  words: readonly string[],
  unitOf: UnitOf,
): { readonly unit?: string; readonly label: readonly string[] } {
  for (const count of [2, 1]) {
    const unit = words.length < count ? undefined : unitIn(words.slice(-count), unitOf);
    if (unit !== undefined) return { unit, label: words.slice(0, -count) };
  }
  return { label: words };
}

export function unitLookup(own: Readonly<Record<string, string>> | undefined): UnitOf {
  return (word) => (own !== undefined && Object.hasOwn(own, word) ? own[word] : unitNamed(word)?.ucum);
}

/**
 * Splits at blanks, `:`, `=`, `;` and at a comma that cannot be a decimal sign: one before something that is no
 * digit, or between a letter and a number with a decimal sign of its own. A sign belongs to the number that follows it,
 * however far: "A-  0.1" is below zero.
 */
const wordsOf = (text: string, decimal: NumberRules['decimal']): string[] =>
  signsJoined(text)
    .split(decimal === '.' ? everyComma : commaBeforeDecimals)
    .filter((word) => word !== '');

const everyComma = /[\s:=;]+|(?<!,),(?![\d,])|(?<=[A-Za-z_#"]),(?=\d)/u;
const commaBeforeDecimals = /[\s:=;]+|(?<!,),(?![\d,])|(?<=[A-Za-z_#"]),(?=\d+[.,]\d)/u;

const numberThenUnit = /^([+-]?[\d.,]+(?:[eE][+-]?\d+)?)(?![eE][+-]?\d)([^\d.,+\s-].*)$/u;
const labelThenNumber = /^([A-Za-z_#]+)([+-][\d.,].*|\d+[.,]\d.*|[.,]\d.*)$/u;

/** "GS,5" is five behind a comma, or a half with its nought left away: only a format can say which. */
const commaOrPoint = /^[A-Za-z_#"]+,\d+(?![\d.,])/u;

/** A word may hold label, number and unit with nothing in between: "X+0.123mm". Digits in a bare word ("CH1") are a name. */
function partsOf(text: string, rules: NumberRules): Word[] {
  const number = readNumber(text, rules);
  if (number !== undefined) return [{ text, number }];
  const label = rules.decimal === 'either' && commaOrPoint.test(text) ? null : labelThenNumber.exec(text);
  if (label?.[1] !== undefined && label[2] !== undefined) {
    return [{ text: label[1] }, ...partsOf(label[2], rules)];
  }
  const glued = numberThenUnit.exec(text);
  const value = glued?.[1] === undefined ? undefined : readNumber(glued[1], rules);
  if (glued?.[1] !== undefined && glued[2] !== undefined && value !== undefined) {
    return [{ text: glued[1], number: value }, { text: glued[2] }];
  }
  return [{ text }];
}
