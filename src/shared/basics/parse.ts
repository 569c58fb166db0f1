import { fail, ok, type Result } from './result.ts';
import { type Length, mm, newtonMetres, type Torque } from './quantity.ts';
import { type Dimension, toInside, type Unit, unitNamed } from './units.ts';

/** What a person typed, kept beside the number used inside. */
interface Typed {
  readonly inside: number;
  readonly value: number;
  readonly unit: Unit;
}

/** No length, torque or force at an axle comes near it in any unit; beyond it sums would run out of numbers. */
export const largestTyped = 1e6;

const shape = /^([+\-−]?\s*(?:\d+[.,]?\d*|[.,]\d+)(?:[eE][+-]?\d+)?)\s*(\S.*)?$/u;

/**
 * Reads "0.2mm", ".008 in", "2,5 N·m". A quantity without a unit is refused: 0.2 of what is exactly the
 * mistake (mm against inch) that puts a gear set together wrongly.
 */
export function parseQuantity(
  text: string,
  dimension: Dimension,
  field: string,
): Result<Typed, 'not-a-number' | 'no-unit' | 'wrong-unit'> {
  const found = shape.exec(text.trim());
  const digits = found?.[1];
  if (digits === undefined) {
    return fail({
      kind: 'not-a-number',
      field,
      sentence: `${field}: "${text}" is not a number with a unit.`,
      remedy: `Write it like ${example[dimension]}.`,
    });
  }
  const word = found?.[2];
  if (word === undefined) {
    return fail({
      kind: 'no-unit',
      field,
      sentence: `${field}: "${text}" has no unit.`,
      remedy: `Write it like ${example[dimension]}.`,
    });
  }
  const unit = unitNamed(word);
  if (unit === undefined || unit.dimension !== dimension) {
    return fail({
      kind: 'wrong-unit',
      field,
      sentence: `${field}: "${word.trim()}" is not a unit of ${dimension}.`,
      remedy: `Write it like ${example[dimension]}.`,
    });
  }
  const value = Number(digits.replaceAll(/\s/gu, '').replace('−', '-').replace(',', '.'));
  if (Math.abs(value) > largestTyped) {
    return fail({
      kind: 'not-a-number',
      field,
      sentence: `${field}: "${text}" is larger than anything at an axle.`,
      remedy: `Write it like ${example[dimension]}.`,
    });
  }
  return ok({ value, unit, inside: toInside(value, unit) });
}

const example: Record<Dimension, string> = {
  length: '0.2mm or 0.008in',
  torque: '2.5N.m or 22in-lb',
  force: '20N or 4.5lbf',
  angle: '30deg',
};

/** A length on the command line or in a field, in millimetres. */
export function parseLength(text: string, field: string): Result<Length> {
  const typed = parseQuantity(text, 'length', field);
  return typed.ok ? ok(mm(typed.value.inside)) : typed;
}

/** A torque on the command line or in a field, in newton metres. */
export function parseTorque(text: string, field: string): Result<Torque> {
  const typed = parseQuantity(text, 'torque', field);
  return typed.ok ? ok(newtonMetres(typed.value.inside)) : typed;
}
