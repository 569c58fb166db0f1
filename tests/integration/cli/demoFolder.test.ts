import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { demoFolderName, freshDemoFolder } from '../../../src/main/cli/demo/recordsFolder.ts';
import { inProcess } from '../../support/commandLine.ts';
import { temporaryFolder } from '../../support/folder.ts';

/** A person's own file somewhere below `folder`. */
function thesisIn(folder: string): string {
  mkdirSync(folder, { recursive: true });
  const file = join(folder, 'thesis.txt');
  writeFileSync(file, 'years of work');
  return file;
}

describe('the demo erases nothing that it did not make', () => {
  it.each(['data', demoFolderName])('and refuses a folder %s of somebody else', async (name) => {
    const out = temporaryFolder();
    const thesis = thesisIn(join(out, name, 'years'));
    const made = freshDemoFolder(out);
    if (name === demoFolderName) {
      expect(made).toMatchObject({ ok: false, problem: { field: '--out' } });
      const { code, said } = await inProcess('demo', '--out', out);
      expect({ code, named: said.includes('--out') }).toEqual({ code: 2, named: true });
    }
    expect(readFileSync(thesis, 'utf8')).toBe('years of work');
  });

  it('nor writes over a certificate of somebody else', async () => {
    const out = temporaryFolder();
    writeFileSync(join(out, 'certificate.pdf'), 'a certificate of this year');
    expect((await inProcess('demo', '--out', out)).code).toBe(2);
    expect(readFileSync(join(out, 'certificate.pdf'), 'utf8')).toBe('a certificate of this year');
  });

  it('nor what a link in its place leads to', () => {
    const [out, elsewhere] = [temporaryFolder(), temporaryFolder()];
    const thesis = thesisIn(elsewhere);
    symlinkSync(elsewhere, join(out, demoFolderName));
    expect(freshDemoFolder(out)).toMatchObject({ ok: false });
    expect(existsSync(thesis)).toBe(true);
  });

  it('but its own of last time', () => {
    const out = temporaryFolder();
    const first = freshDemoFolder(out);
    if (!first.ok) throw new Error(first.problem.sentence);
    const left = join(first.value, 'axlewright.db');
    writeFileSync(left, 'last time');
    writeFileSync(join(out, 'certificate.pdf'), 'last time');
    expect(freshDemoFolder(out)).toEqual(first);
    expect(existsSync(left)).toBe(false);
  });
});
