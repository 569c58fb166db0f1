import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { globSync } from 'node:fs';
import { parseAst } from 'rolldown/parseAst';
import { describe, expect, it } from 'vitest';
import { codeAlone } from '../../../../src/main/certificate/codeAlone.ts';

const root = resolve(import.meta.dirname, '..', '..', '..', '..');

/** What a compiler reads in a source, without the places it stands at. */
const read = (source: string): string =>
  JSON.stringify(parseAst(source, { lang: 'ts', astType: 'ts' }), (key, value: unknown) =>
    key === 'start' || key === 'end' ? undefined : value,
  );

describe('code alone', () => {
  it('leaves out comments and makes one space of blanks, and nothing else', () => {
    const source = ['/** Told. */', 'const a = b', '  / c; // half of it', '', 'f(a /* one */ /* two */);'].join('\n');
    expect(codeAlone(source)).toBe('const a = b / c; f(a );');
  });

  it.each([
    "const s = '// no comment  ' + \"/* nor this */\" + 'it\\'s';",
    'const t = `a  // ${b /* c */ + `in ${{ d: 1 }.d}  //`} /* e */ ${f}`;',
    'const r = /[/]\\/\\/ "/u.test(s) ? a / b / c : (a) / 2;',
    'const x = list.map((one) => /^\\/\\*/u.exec(one)) ; return_ = a[0] / 2 / b;',
    'const y = typeof /a  b/u;',
  ])('keeps what stands in strings, templates and regular expressions: %s', (source) => {
    expect(read(codeAlone(source))).toBe(read(source));
    expect(codeAlone(`${source} // more`)).toBe(codeAlone(source));
  });

  it('is read by a compiler as every source of this program is', () => {
    const files = globSync('src/{main,shared}/**/*.ts', { cwd: root });
    expect(files.length).toBeGreaterThan(500);
    for (const file of files) {
      const source = readFileSync(join(root, file), 'utf8');
      const alone = codeAlone(source);
      expect(read(alone), file).toBe(read(source));
      expect(alone, file).not.toMatch(/^\s*(?:\/\*\*| \* )/mu);
    }
  });

  it('is the same of what is already without them', () => {
    for (const file of globSync('src/shared/measuring/**/*.ts', { cwd: root })) {
      const alone = codeAlone(readFileSync(join(root, file), 'utf8'));
      expect(codeAlone(alone), file).toBe(alone);
    }
  });
});
