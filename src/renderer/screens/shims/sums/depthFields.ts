import type { DepthWay } from './depth.ts';

/** What is typed for a depth shim: lengths with their unit, and numbers that have none of their own. */
export type DepthLength = 'shim' | 'gap' | 'arbor' | 'measured' | 'nominal' | 'head';
export type DepthNumber = 'oldMark' | 'newMark' | 'pointer';

/** A field of the form: its label, and what is to be known when it is filled in. */
export type DepthField =
  | { readonly length: DepthLength; readonly label: string; readonly hint?: string }
  | { readonly number: DepthNumber; readonly label: string; readonly hint: string }
  /** In what the mark counts: one choice for both marks. */
  | { readonly unit: true };

const shim = {
  length: 'shim',
  label: 'Shim that is in now',
  hint: 'The pack as measured; 0 where none is in.',
} as const;
const unit = { unit: true } as const;
const markHint = 'With its sign; empty where there is none.';
const mark = { number: 'newMark', label: 'Mark on the pinion', hint: markHint } as const;
const nominal = {
  length: 'nominal',
  label: 'Nominal distance',
  hint: 'Not needed where the mark is the full distance.',
} as const;

/** What each way asks for, in the order in which it is read. */
export const depthFields: Readonly<Record<DepthWay, readonly DepthField[]>> = {
  marks: [
    shim,
    { number: 'oldMark', label: 'Mark on the old pinion', hint: 'With its sign, as cut.' },
    { number: 'newMark', label: 'Mark on the new pinion', hint: markHint },
    unit,
  ],
  arbor: [
    shim,
    mark,
    unit,
    { length: 'gap', label: 'Gap from the arbor to the head' },
    { length: 'arbor', label: 'Diameter of the arbor' },
    nominal,
  ],
  block: [shim, mark, unit, { length: 'gap', label: 'Thickest feeler that enters' }],
  dial: [
    shim,
    mark,
    unit,
    {
      number: 'pointer',
      label: 'Pointer, thousandths of an inch',
      hint: '84 to 99 reads direct; 0 to 11 has made a turn.',
    },
  ],
  distance: [shim, mark, unit, { length: 'measured', label: 'Distance from the ring-gear axis' }, nominal],
};

/** Asked where what was measured and what is nominal end at different faces of the head. */
export const headField: DepthField = { length: 'head', label: 'Head, front to back' };
