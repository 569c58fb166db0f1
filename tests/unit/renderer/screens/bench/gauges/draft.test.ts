import { describe, expect, it } from 'vitest';
import {
  blankGauge,
  type GaugeDraft,
  gaugeDraftOf,
  readGauge,
} from '../../../../../../src/renderer/screens/bench/gauges/draft.ts';
import { linkDraftOf } from '../../../../../../src/renderer/screens/bench/gauges/linkDraft.ts';
import type { Gauge } from '../../../../../../src/shared/job/records/gauge.ts';

const indicator: Gauge = {
  id: 'g1',
  label: 'Stem indicator',
  kind: 'indicator',
  resolution: { value: 0.001, unit: 'mm' },
  statedError: { value: 0.003, unit: 'mm' },
  hysteresis: { value: 0.002, unit: 'mm' },
  serial: '0042',
  calibratedOn: '2026-03-01',
  dueOn: '2027-03-01',
  link: 'serial:/dev/ttyUSB0?baud=9600',
  unit: 'mm',
};
const pullScale: Gauge = {
  id: 'g2',
  label: 'Pull scale',
  kind: 'torque',
  resolution: { value: 0.1, unit: 'N' },
  statedError_percent: 0.5,
  arm: { length: { value: 150, unit: 'mm' }, within: { value: 0.5, unit: 'mm' } },
};

const errorsOf = (draft: GaugeDraft): object => {
  const read = readGauge(draft);
  return read.ok ? {} : read.errors;
};

describe("a gauge's record as it is typed", () => {
  it.each([indicator, pullScale])('is the same record again: $label', (gauge) => {
    expect(readGauge(gaugeDraftOf(gauge))).toEqual({ ok: true, value: gauge });
  });

  it('says what is missing of a new one, each at its field', () => {
    const blank = blankGauge('indicator', linkDraftOf(''), 'metric');
    expect(Object.keys(errorsOf(blank)).toSorted()).toEqual(['label', 'resolution']);
  });

  it.each([
    ['a resolution of nothing', { resolution: { text: '0', unit: 'mm' } }, 'resolution'],
    ['a resolution in another dimension', { resolution: { text: '0.1 N.m', unit: 'mm' } }, 'resolution'],
    ['an error without a number', { statedError: { text: 'small', unit: 'mm' } }, 'statedError'],
    ['a percentage above what can be', { statedError_percent: '80' }, 'statedError_percent'],
    ['no day', { calibratedOn: 'spring' }, 'calibratedOn'],
  ] as const)('refuses %s', (_, change, field) => {
    expect(Object.keys(errorsOf({ ...gaugeDraftOf(indicator), ...change }))).toEqual([field]);
  });

  it('asks a pull scale for its arm, and registers for their unit', () => {
    const noArm = { ...gaugeDraftOf(pullScale), arm: { text: '', unit: 'mm' } };
    expect(errorsOf(noArm)).toHaveProperty('arm');
    const registers = { ...gaugeDraftOf(indicator), unit: '', link: { ...linkDraftOf('modbus:'), path: '/dev/ttyS0' } };
    expect(errorsOf(registers)).toEqual({ unit: 'Registers carry no unit: choose the one the gauge is set to.' });
  });

  it('marks what is wrong with the link within the link', () => {
    const draft = { ...gaugeDraftOf(indicator), link: { ...linkDraftOf('serial:'), path: '/dev/x', baud: 'fast' } };
    expect(errorsOf(draft)).toHaveProperty('link.baud');
  });
});
