import { describe, expect, it } from 'vitest';
import {
  type PackDraft,
  readPack,
  readPacks,
  sumOf,
} from '../../../../../../src/renderer/screens/checks/typed/shims.ts';

const pack: PackDraft = { place: 'ring-side', each: '5.00 + 0.95 0,05', pack: { text: '5.99', unit: 'mm' } };

describe('the shims of one place', () => {
  it('are kept one by one beside the pack as clamped', () => {
    const mm = (value: number) => ({ value, unit: 'mm' });
    expect(readPack(pack)).toEqual({
      ok: true,
      value: { place: 'ring-side', each: [mm(5), mm(0.95), mm(0.05)], pack: mm(5.99) },
    });
  });

  it('add up only to be compared: the pack is what counts', () => {
    expect(sumOf(pack)).toBe('6.000 mm');
    expect(sumOf({ ...pack, each: '6' })).toBeUndefined();
  });

  it('are told apart by plus signs, gaps and commas, and a decimal comma stays one', () => {
    expect(sumOf({ ...pack, each: '1.0, 0.25' })).toBe('1.250 mm');
    expect(sumOf({ ...pack, each: '1,0 0,25' })).toBe('1.250 mm');
    expect(sumOf({ ...pack, each: '1.0 + 0.25' })).toBe('1.250 mm');
  });

  it('need their pack, and a wrong shim is named by its place', () => {
    expect(readPack({ ...pack, pack: { text: '', unit: 'mm' } })).toMatchObject({
      ok: false,
      problem: { field: 'Ring-gear side', sentence: 'Ring-gear side: the pack as clamped is missing.' },
    });
    expect(readPack({ ...pack, each: '5 x' })).toMatchObject({ ok: false, problem: { field: 'Ring-gear side' } });
  });

  it('come to no pack that no axle has: a lost point is asked about before it goes into the next shim', () => {
    const slipped = { ...pack, each: '', pack: { text: '99', unit: 'mm' } };
    expect(readPack(slipped)).toMatchObject({ ok: false, problem: { kind: 'no-pack-so-thick' } });
    expect(readPack({ ...slipped, pack: { text: '0.5', unit: '[in_i]' } })).toMatchObject({ ok: true });
    expect(readPack({ ...slipped, pack: { text: '5.99', unit: '[in_i]' } })).toMatchObject({ ok: false });
  });

  it('leave out a place without shims, but not all of them', () => {
    const empty: PackDraft = { place: 'opposite-side', each: '', pack: { text: '', unit: 'mm' } };
    expect(readPacks([pack, empty])).toMatchObject({ ok: true, value: [{ place: 'ring-side' }] });
    expect(readPacks([empty])).toMatchObject({ ok: false, problem: { kind: 'unanswered' } });
  });
});
