import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allVerbs } from '../../../src/main/cli/verbs.ts';
import { newFolder } from '../../support/bench/open.ts';
import type { Verb } from '../../../src/main/cli/verb.ts';
import { inProcess } from '../../support/commandLine.ts';
import { pngHead } from '../../support/photos.ts';

/** Files and folders that a tired hand, a broken disk or somebody unkind might name. */
function oddFiles(): readonly string[] {
  const folder = newFolder();
  const file = (name: string, content: string | Uint8Array): string => {
    writeFileSync(join(folder, name), content);
    return join(folder, name);
  };
  mkdirSync(join(folder, 'axlewright.db'));
  symlinkSync('loop.json', join(folder, 'loop.json'));
  return [
    folder,
    join(folder, 'loop.json'),
    join(folder, 'not-there'),
    file('empty', ''),
    file('nothing.jsonl', '\n\n'),
    file('null.jsonl', 'null\n[]\n{}\n7\n'),
    file('deep.jsonl', `${'['.repeat(20_000)}\n`),
    file('proto.jsonl', '{"__proto__":{"t":1},"t":0,"mm":0.1}\n{"t":1e400,"mm":"0,1"}\n{"t":-1,"mm":null}\n'),
    file('lines.jsonl', Array.from({ length: 60 }, (_, n) => `{"t":${n / 10},"mm":${(n % 7) / 100}}`).join('\n')),
    file('bytes.pdf', Buffer.from(Array.from({ length: 3000 }, (_, n) => (n * 7919) % 256))),
    file('words.pdf', '%PDF-1.7\nnothing more\n%%EOF'),
    file('head.png', pngHead(60_000, 60_000)),
    file('cut.jpg', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0x00, 0x10])),
    '/dev/null',
  ];
}

/** What a shell can hand over: no zero, which ends a word there. */
const oddWords = `
0 -0 -1 1e400 1e-400 NaN Infinity 0x10 1,5 0.01mm -5mm 0mm 1furlong 12/7 41/11 1/0 10N.m 0.1in mm auto pdf json a4 metric
face-milled __proto__ constructor along-rotation ring-gear pinion serial:/dev/not-there tcp://127.0.0.1:1 tcp://[ .. -- 💥`;
const odd = [
  ...oddWords.trim().split(/\s+/u),
  '',
  ' ',
  '\uD800',
  '0,0 1,0 1,1 0,1',
  '0,0 0,0 0,0 0,0',
  'y'.repeat(5000),
];

/** "-" is standard input, which nobody ends here. */
const isNotStandardInput = (word: string): boolean => word !== '-';

/** Those that run until they are ended are only called with an option that must be refused. */
const running = { watch: 'link', simulate: 'gauge', learn: 'seconds', open: 'port', demo: 'out' } as const;
const isRunning = (name: string): name is keyof typeof running => Object.hasOwn(running, name);

const wordsOf = ({ words = 0 }: Verb) =>
  typeof words === 'number' ? { minLength: words, maxLength: words } : { minLength: words[0], maxLength: 3 };

describe('a thousand calls of the command line', () => {
  it('meet no fault, and say no stack and no word of the program', { timeout: 300_000 }, async () => {
    const verbs = (await allVerbs()).filter(({ name }) => name !== 'ports');
    const files = oddFiles();
    const value = fc
      .oneof(fc.constantFrom(...odd), fc.constantFrom(...files), fc.string({ maxLength: 12 }))
      .filter(isNotStandardInput);
    const quantity = fc.constantFrom('backlash', 'runout', 'torque');
    const call = fc.constantFrom(...verbs).chain((verb) =>
      fc.record({
        name: fc.constant(verb.name),
        words: fc.array(fc.oneof(value, quantity), wordsOf(verb)),
        options: fc.uniqueArray(fc.constantFrom(...Object.keys(verb.options), 'data'), { maxLength: 6 }),
        values: fc.array(value, { minLength: 7, maxLength: 7 }),
      }),
    );
    const codes = new Map<number | null, number>();
    await fc.assert(
      fc.asyncProperty(call, async ({ name, words, options, values }) => {
        const given = options.flatMap((option, n) => [`--${option}=${values[n] ?? ''}`]);
        const refused = isRunning(name) ? ['--no-such-option'] : [];
        const data = options.includes('data') ? [] : ['--data', files[0] ?? ''];
        const ran = await inProcess(name, ...words, ...given, ...data, ...refused);
        codes.set(ran.code, (codes.get(ran.code) ?? 0) + 1);
        expect([0, 1, 2]).toContain(ran.code);
        if (ran.code !== 0) expect(ran.said.trim()).not.toBe('');
        expect(ran.said).not.toMatch(/\n\s+at |fault of its own|Zod|Invalid input|\bundefined\b|\[object|ERR_[A-Z]/u);
        expect(JSON.stringify(ran.answers)).not.toMatch(/NaN|Infinity/u);
      }),
      { numRuns: 1000 },
    );
    for (const code of [0, 1, 2]) expect(codes.get(code), `ended with ${code}`).toBeGreaterThan(0);
  });
});
