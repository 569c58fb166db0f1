import { describe, expect, it } from 'vitest';
import { roadTestSince } from '../../../../../src/shared/job/certifying/certificateData.ts';
import type { Deed } from '../../../../../src/shared/job/records/notebook.ts';
import { described, notebook } from '../../../../support/records/scenario.ts';

const certified: Deed = { kind: 'certified', sha256: '0'.repeat(64), complete: true };
const driven: Deed = { kind: 'noted', topic: 'road-test', text: '12 km, nothing heard', heard: 'nothing' };
const since = (...deeds: readonly Deed[]) => roadTestSince({ entries: notebook(...deeds) });

describe('a road test that a certificate does not have', () => {
  it('is the last one behind the last certificate', () => {
    expect(since(described, certified, driven, driven)).toBe('2026-01-05T08:04:00.000Z');
  });

  it('is none before the certificate, without one, struck through, or where something else was noted', () => {
    expect(since(described, driven, certified)).toBeUndefined();
    expect(since(described, driven)).toBeUndefined();
    expect(since(certified, driven, certified)).toBeUndefined();
    expect(since(certified, driven, { kind: 'struck', entry: 'e2' })).toBeUndefined();
    expect(since(certified, { kind: 'noted', topic: 'note', text: 'a note' })).toBeUndefined();
  });
});
