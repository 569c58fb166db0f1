import { mkdirSync, mkdtempSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { buildNoting, screensAreNew } from '../../../../src/main/hosts/launcher/screens.mjs';

describe('the built screens', () => {
  let root: string;
  const page = () => join(root, 'out', 'renderer', 'index.html');
  const build = (): number => {
    mkdirSync(join(root, 'out', 'renderer'), { recursive: true });
    writeFileSync(page(), '');
    return 0;
  };
  /** Files written within one tick of the disk's clock would look alike. */
  const age = (...paths: readonly string[]): void => {
    for (const path of paths) utimesSync(path, 1000, 1000);
  };

  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'axlewright-screens-'));
    mkdirSync(join(root, 'src', 'renderer'), { recursive: true });
    mkdirSync(join(root, 'hardware-sim'));
    const files = [
      'electron.config.ts',
      'package.json',
      'package-lock.json',
      'src/renderer/main.tsx',
      'src/renderer/old.ts',
    ];
    for (const file of files) writeFileSync(join(root, file), '');
    age(
      ...files.map((file) => join(root, file)),
      join(root, 'src/renderer'),
      join(root, 'src'),
      join(root, 'hardware-sim'),
    );
  });

  it('are not built again while nothing they are made of has changed', () => {
    expect(screensAreNew(root)).toBe(false);
    expect(buildNoting(root, build)).toBe(0);
    expect(screensAreNew(root)).toBe(true);
  });

  it.each([
    ['a source is changed', () => writeFileSync(join(root, 'src/renderer/main.tsx'), 'changed')],
    ['a source is added', () => writeFileSync(join(root, 'src/renderer/new.ts'), '')],
    ['a source is taken away', () => rmSync(join(root, 'src/renderer/old.ts'))],
    ['the packages are others', () => writeFileSync(join(root, 'package-lock.json'), '{}')],
    ['they are gone', () => rmSync(page())],
  ])('are built again when %s', (_, change) => {
    buildNoting(root, build);
    const built = statSync(join(root, 'out', '.built')).mtimeMs;
    while (Date.now() <= built + 20);
    change();
    expect(screensAreNew(root)).toBe(false);
  });

  it('do not count as built when the build fails, whatever was there before', () => {
    buildNoting(root, build);
    expect(buildNoting(root, () => 1)).toBe(1);
    expect(screensAreNew(root)).toBe(false);
  });
});
