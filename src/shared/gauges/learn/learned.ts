import type { LineFormat } from '../lineFormat.ts';

/** Why a format may be wrong although it reads the lines; each in words for the technician. */
export type Doubt =
  | 'nothing-heard'
  | 'no-line-end'
  | 'too-few-lines'
  | 'not-text'
  | 'no-number'
  | 'did-not-move'
  | 'one-way'
  | 'two-numbers-move'
  | 'two-axes'
  | 'two-units'
  | 'comma'
  | 'no-decimals'
  | 'no-unit'
  | 'some-unreadable';

export const doubtInWords: Record<Doubt, string> = {
  'nothing-heard': 'Nothing was heard. Press the send button, or check the cable and the settings.',
  'no-line-end': 'No line end was found, so where one reading stops and the next begins is not known.',
  'too-few-lines': 'Too few whole lines were heard. Listen longer, or press the send button more often.',
  'not-text': 'What was heard is no text: baud rate, bits or parity are probably wrong.',
  'no-number': 'No number was found that stands at the same place in every line.',
  'did-not-move': 'The number did not change, or hardly. Move the spindle there and back while the bench listens.',
  'one-way': 'The number went one way only, as a clock does. Move the spindle there and back while the bench listens.',
  'two-numbers-move': 'More than one number changes. Choose the one that follows the spindle.',
  'two-axes': 'Lines of two axes or channels alternate, or of readings and peaks. Only one of them can be read.',
  'two-units': 'Lines came in two units. Leave the unit at the gauge as it is while the bench listens.',
  comma: 'The comma may be a decimal sign, or stand between two numbers. Move the gauge by a known amount.',
  'no-decimals': 'The number has no decimals, so its scale is not known. Move the gauge by a known amount.',
  'no-unit': 'The lines carry no unit. Set the unit the gauge shows.',
  'some-unreadable': 'Some of the lines could not be read this way.',
};

export interface Sample {
  readonly raw: Uint8Array;
  readonly value: number;
  /** UCUM, or '' where the line says none. */
  readonly unit: string;
}

/** What was learned of a gauge's lines. */
export interface Learned {
  readonly format: LineFormat;
  /** 0 to 1: the share of lines read, lowered by each doubt. */
  readonly confidence: number;
  /** False when a person has to choose or confirm before anything is measured with it. */
  readonly sure: boolean;
  readonly doubts: readonly Doubt[];
  readonly samples: readonly Sample[];
  readonly alternatives: readonly LineFormat[];
}

/** Sure from here on. Every doubt but a missing unit, which the bench asks for anyway, takes it below. */
export const sureFrom = 0.8;

const keeps: Readonly<Record<Doubt, number>> = {
  'nothing-heard': 0,
  'no-line-end': 0,
  'too-few-lines': 0.3,
  'not-text': 0,
  'no-number': 0,
  'did-not-move': 0.6,
  'one-way': 0.6,
  'two-numbers-move': 0.4,
  'two-axes': 0.5,
  'two-units': 0.6,
  comma: 0.6,
  'no-decimals': 0.6,
  'no-unit': 0.9,
  'some-unreadable': 0.7,
};

export const confidenceOf = (share: number, doubts: readonly Doubt[]): number =>
  doubts.reduce((confidence, doubt) => confidence * keeps[doubt], share);
