import { appendFileSync, cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hashOfSources, measuringHash, sourcesOf } from '../../../../src/main/certificate/measuring.ts';
import { temporaryFolder } from '../../../support/folder.ts';

const root = resolve(import.meta.dirname, '..', '..', '..', '..');

/** The sources by which measuring is done, somewhere else. */
function copy(): string {
  const folder = temporaryFolder();
  for (const path of [...sourcesOf(root).files.keys(), 'package.json']) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    cpSync(join(root, path), join(folder, path));
  }
  return folder;
}

describe('the hash of the measuring', () => {
  it('is that of the sources from the journal’s rows to the figures, and of nothing that draws or words', () => {
    const { files, packages } = sourcesOf(root);
    const names = [...files.keys()];
    for (const path of ['main/journal/measured.ts', 'shared/measuring/runout/runout.ts', 'shared/basics/statistics.ts'])
      expect(names).toContain(`src/${path}`);
    expect(names.filter((path) => /presentation|renderer|certificate/u.test(path))).toEqual([]);
    expect(packages).toContain('zod');
    expect(hashOfSources(root)).toBe(measuringHash());
  });

  it('is the same wherever they lie and whatever line ends and comments they were given, and another with any code in them changed', () => {
    const folder = copy();
    expect(hashOfSources(folder)).toBe(measuringHash());
    const file = join(folder, 'src/shared/basics/statistics.ts');
    const was = readFileSync(file, 'utf8');
    writeFileSync(file, was.replaceAll('\n', '\r\n'));
    expect(hashOfSources(folder)).toBe(measuringHash());
    appendFileSync(file, '\n\n/* told\n * otherwise */ // and so on\n');
    expect(hashOfSources(folder)).toBe(measuringHash());
    appendFileSync(file, 'export const more = 1;\n');
    expect(hashOfSources(folder)).not.toBe(measuringHash());
    writeFileSync(file, was);
    const manifest = join(folder, 'package.json');
    writeFileSync(manifest, readFileSync(manifest, 'utf8').replace(/"zod": "[^"]+"/u, '"zod": "99.0.0"'));
    expect(hashOfSources(folder)).not.toBe(measuringHash());
  });
});
