import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommandLine } from '../../../../src/main/cli/run.ts';
import { allVerbs, verbsFor } from '../../../../src/main/cli/verbs.ts';
import { asLines } from '../../../support/streams.ts';
import { inProcess } from '../../../support/commandLine.ts';
import { temporaryFolder } from '../../../support/folder.ts';

const link = ['--link', 'tcp://127.0.0.1:1'];
const gauge = ['simulate', '--gauge', 'indicator', '--format'];
const registers = ['simulate', '--gauge', 'indicator', '--modbus'];
const build = ['export', '--build', 'b', '--out', '/nowhere'];

/** A command line, and what must be named. */
const wrong: readonly (readonly [readonly string[], RegExp])[] = [
  [['mesure'], /no verb "mesure"/u],
  [['watch', ...link, '--colour', 'red'], /--colour/u],
  [['watch', 'this'], /0 words/u],
  [['measure'], /1 words/u],
  [['measure', 'weight', '--in', 'x'], /"weight"/u],
  [['measure', 'backlash'], /--in/u],
  [['measure', 'backlash', '--in', '/nowhere'], /--in.*ENOENT/u],
  [['measure', 'backlash', '--in', 'READINGS', '--resolution', '0.001'], /--resolution.*no unit/u],
  [['measure', 'backlash', '--in', 'READINGS', '--resolution', '0mm'], /--resolution is not above zero/u],
  [['measure', 'backlash', '--in', 'READINGS', '--resolution=-1mm'], /--resolution is not above zero/u],
  [['measure', 'backlash', '--in', 'READINGS', '--resolution', '1e-400mm'], /--resolution is not above zero/u],
  [['measure', 'backlash', '--in', 'READINGS', '--resolution', '1e400mm'], /--resolution: "1e400mm" is larger/u],
  [['measure', 'backlash', '--in', 'READINGS', '--gauge-u=-0.001mm'], /--gauge-u is below zero/u],
  [['measure', 'torque', '--in', 'READINGS', '--arm=-5mm'], /--arm is not above zero/u],
  [['measure', 'backlash', '--in', 'READINGS', '--gauge-u', '1N.m'], /--gauge-u.*length/u],
  [['measure', 'torque', '--in', 'READINGS', '--max', '1mm'], /--max.*torque/u],
  [['measure', 'backlash', '--in', 'READINGS', '--min', '1mm', '--max', '0.1mm'], /--min/u],
  [['measure', 'backlash', '--in', 'READINGS', '--rule', 'kind'], /--rule/u],
  [['measure', 'torque', '--in', 'READINGS', '--basis', 'cold'], /--basis/u],
  [['builds', '--data', ''], /--data is empty/u],
  [['export', '--build', 'b', '--as', 'json', '--out='], /--out is empty/u],
  [['watch'], /--link/u],
  [['watch', '--link', 'usb:0'], /--link/u],
  [['watch', '--link', 'serial:/dev/ttyX?parity=perhaps'], /--link: parity=perhaps/u],
  [['watch', ...link, '--count', '0'], /--count/u],
  [['watch', ...link, '--count', '2.5'], /--count/u],
  [['watch', ...link, '--unit', 'stone'], /--unit/u],
  [['watch', ...link, '--format', '/nowhere'], /--format.*ENOENT/u],
  [['watch', ...link, '--format', 'READINGS'], /--format.*not JSON/u],
  [['watch', ...link, '--format', 'FORMAT'], /--format.*decimal/u],
  [['learn', '--seconds', '2'], /--link/u],
  [['learn', '--link', 'tcp://nowhere', '--seconds', '2'], /--link/u],
  [['learn', ...link], /--seconds/u],
  [['learn', ...link, '--seconds', 'long'], /--seconds/u],
  [['learn', ...link, '--seconds', '0'], /--seconds/u],
  [['simulate', '--format', 'auto'], /--gauge/u],
  [['simulate', '--gauge', 'ruler', '--format', 'auto'], /--gauge is "ruler"/u],
  [['simulate', '--gauge', 'indicator'], /--format/u],
  [[...gauge, 'TORQUE'], /--format.*unit\.ucum/u],
  [[...gauge, 'auto', '--rate', '0'], /--rate/u],
  [[...gauge, 'auto', '--faults', 'half,gremlins'], /--faults.*gremlins/u],
  [[...gauge, 'auto', '--faults', 'half@10-5'], /--faults: "half@10-5" ends before it begins/u],
  [[...gauge, 'auto', '--modbus', 'auto'], /--format and --modbus/u],
  [[...registers, 'unit=300'], /--modbus: unit=300/u],
  [[...registers, 'speed=9600'], /--modbus: .*"speed"/u],
  [[...registers, 'type=u16'], /--modbus: .*below zero/u],
  [[...registers, 'scale=0.0001'], /--modbus: s16 at this scale ends at 3\.2767/u],
  [[...registers, 'auto', '--faults', 'half,endless@3'], /--faults: endless/u],
  [['export', '--as', 'pdf', '--out', 'x'], /--build/u],
  [[...build], /--as/u],
  [[...build, '--as', 'docx'], /--as is "docx"/u],
  [[...build, '--as', 'pdf', '--page', 'a3'], /--page/u],
  [[...build, '--as', 'pdf', '--units', 'cubits'], /--units/u],
  [['verify'], /1 words/u],
  [['verify', '/nowhere'], /FILE.*ENOENT/u],
  [['open', '--port', '99999'], /--port/u],
  [['demo'], /--out/u],
];

function files(): (word: string) => string {
  const folder = temporaryFolder();
  const at = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const format = { kind: 'axlewright-line-format', version: 1 };
  const known: Readonly<Record<string, string>> = {
    READINGS: at(
      'readings.jsonl',
      asLines([
        { t: 1, value: 0.1, unit: 'mm' },
        { t: 2, value: 0.1, unit: 'mm' },
      ]),
    ),
    FORMAT: at('format.json', JSON.stringify({ ...format, decimal: ';' })),
    TORQUE: at('torque.json', JSON.stringify({ ...format, unit: { is: 'fixed', ucum: 'N.m' } })),
  };
  return (word) => known[word] ?? word;
}

describe('wrong use ends with 2, answers nothing and names what is wrong', () => {
  it.each(wrong.map(([words, named]) => ({ line: words.join(' '), words, named })))(
    '$line',
    async ({ words, named }) => {
      const { code, answers, said } = await inProcess(...words.map(files()));
      expect(code).toBe(2);
      expect(answers).toEqual([]);
      expect(said).toMatch(named);
    },
  );
});

describe('a fault of the program', () => {
  it('is one sentence and no stack, and ends with 1', async () => {
    const said: string[] = [];
    const verb = {
      name: 'stumble',
      usage: 'stumble',
      summary: '',
      options: {},
      run: () => Promise.reject(new RangeError('Invalid array length')),
    };
    const code = await runCommandLine([verb], ['stumble'], {
      answer: () => undefined,
      say: (words) => said.push(words),
    });
    expect(code).toBe(1);
    expect(said).toEqual(['axlewright stumble met a fault of its own: Invalid array length. Nothing more was done.']);
  });
});

describe('help', () => {
  it('names every verb', async () => {
    const { code, said } = await inProcess('help');
    expect(code).toBe(0);
    for (const { usage, name } of await allVerbs()) {
      expect(said).toContain(usage);
      expect(usage.startsWith(name)).toBe(true);
      // Each is found under its own name.
      expect(await verbsFor(name)).toEqual([expect.objectContaining({ name })]);
    }
  });
});
