import { describe, expect, it } from 'vitest';
import type { Gauge } from '../../../../../../src/shared/job/records/gauge.ts';
import {
  newTool,
  readTool,
  toolOf,
  toolsFor,
  usualOf,
} from '../../../../../../src/renderer/screens/checks/typed/tool.ts';

const tool = (label: string, value: number, unit: string, kind: Gauge['kind'] = 'typed'): Gauge => ({
  id: label.toLowerCase(),
  label,
  kind,
  resolution: { value, unit },
});
const micrometer = { ...tool('Micrometer', 0.0001, '[in_i]'), serial: '1207', calibratedOn: '2026-02-01' };
const wrench = tool('Wrench', 1, 'N.m');
const shop = [micrometer, wrench, tool('Indicator', 0.001, 'mm', 'indicator'), tool('Scale', 0.1, 'N')];

describe('the shop’s tools', () => {
  it('are offered where they read what is asked, never a gauge that sends', () => {
    expect(toolsFor(shop, 'length')).toEqual([micrometer]);
    expect(toolsFor(shop, 'fastener')).toEqual([wrench]);
    expect(toolsFor(shop, 'torque')).toEqual([wrench]);
    expect(toolsFor(shop, 'force').map(({ label }) => label)).toEqual(['Scale']);
    expect(toolsFor(undefined, 'length')).toEqual([]);
  });

  it('begin with the one used last for this kind, or the only one, but not with the micrometer of the shims for a dial', () => {
    const [dial, other] = [tool('Dial', 0.01, 'mm'), tool('Caliper', 0.02, 'mm')];
    expect(usualOf([micrometer, dial], { dial: 'dial', length: 'micrometer' }, 'dial')).toBe(dial);
    expect(usualOf([micrometer], {}, 'dial')).toBe(micrometer);
    expect(usualOf([micrometer], { length: 'micrometer' }, 'dial')).toBeUndefined();
    expect(usualOf([micrometer], { length: 'micrometer' }, 'length')).toBe(micrometer);
    expect(usualOf([dial, other], {}, 'dial')).toBeUndefined();
    expect(toolsFor([micrometer, dial, wrench], 'dial')).toEqual([micrometer, dial]);
  });

  it('bring name, scale in their own unit, number and calibration along', () => {
    const how = readTool(toolOf(micrometer, 'length', 'metric'), 'length');
    expect(how).toMatchObject({
      ok: true,
      value: {
        kind: 'typed',
        tool: 'Micrometer',
        resolution: { value: 0.0001, unit: '[in_i]' },
        gauge: { serial: '1207', calibratedOn: '2026-02-01' },
      },
    });
  });
});

describe('a tool that is named for the first time', () => {
  const named = (text: string, unit: string) =>
    readTool({ ...newTool('length', 'metric'), tool: 'Micrometer', resolution: { text, unit } }, 'length');

  it('is taken with its name and step', () => {
    expect(named('0.001', 'mm')).toMatchObject({ ok: true, value: { tool: 'Micrometer' } });
    expect(named('.0005', '[in_i]')).toMatchObject({ ok: true });
  });

  it.each([
    ['0.001', 'um', 'so finely'],
    ['0.5', '[in_i]', 'so coarsely'],
    ['0', 'mm', 'above zero'],
    ['', 'mm', 'Resolution: nothing is typed yet'],
  ])('is asked about a step of "%s" %s', (text, unit, why) => {
    const read = named(text, unit);
    expect(read).toMatchObject({ ok: false, problem: { field: 'resolution' } });
    expect(read.ok ? '' : read.problem.sentence).toContain(why);
  });

  it('needs a name', () => {
    expect(readTool(newTool('length', 'inch'), 'length')).toMatchObject({ ok: false, problem: { field: 'tool' } });
  });
});
