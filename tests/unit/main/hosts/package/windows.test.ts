import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { icon } from '../../../../../src/main/hosts/package/icon.ts';
import { installerScript, sealWindows } from '../../../../../src/main/hosts/package/windows.ts';

const canSeal = existsSync('/usr/bin/makensis') && existsSync('/usr/bin/7z');

/** A small folder in the place of the program. */
function smallPayload(): string {
  const payload = join(mkdtempSync(join(tmpdir(), 'axlewright-windows-')), 'axlewright');
  for (const folder of ['program', 'out/renderer']) mkdirSync(join(payload, folder), { recursive: true });
  for (const file of ['node.exe', 'LICENSE', 'program/axlewright.mjs', 'out/renderer/index.html'])
    writeFileSync(join(payload, file), file.repeat(20));
  return payload;
}

describe.skipIf(!canSeal)('the installer for Windows', () => {
  it('holds every file of the program, and is the same byte for byte when it is made again', () => {
    const [one, other] = ['a', 'b'].map(() => {
      const payload = smallPayload();
      return sealWindows({ payload, version: '1.2.3', epoch: 1_700_000_000, out: join(payload, '..'), quick: false });
    });
    expect(readFileSync(one ?? '')).toEqual(readFileSync(other ?? ''));
    const { stdout } = spawnSync('7z', ['l', '-slt', one ?? ''], { encoding: 'utf8' });
    const paths = [...stdout.matchAll(/^Path = (.+)$/gmu)].map(([, path]) => path);
    for (const file of [
      'node.exe',
      'program/axlewright.mjs',
      'out/renderer/index.html',
      'axlewright.ico',
      'remove.exe',
    ])
      expect(paths, file).toContain(file);
  });
});

describe('its script', () => {
  const script = installerScript({ payload: '/p', version: '1.2.3', file: '/o.exe', quick: false });

  it('asks for no rights of an administrator, and takes away no folder of the person', () => {
    expect(script).toContain('RequestExecutionLevel user');
    const removed = [...script.matchAll(/RMDir \/r "([^"]+)"/gu)].map(([, folder]) => folder);
    expect(removed.length).toBeGreaterThan(3);
    // Whole folders are taken away only below the program, each by its name: a person may have chosen a folder with more in it.
    for (const folder of removed) expect(folder).toMatch(/^\$INSTDIR\\[a-z_]+$/u);
    expect(script).not.toContain('APPDATA\\Axlewright');
  });
});

describe('the icon for Windows', () => {
  it('is a directory of one picture of 256 pixels that lies where it says', () => {
    const bytes = icon();
    expect([...bytes.subarray(0, 8)]).toEqual([0, 0, 1, 0, 1, 0, 0, 0]);
    const at = bytes.readUInt32LE(18);
    expect(bytes.readUInt32LE(14)).toBe(bytes.length - at);
    // Width and height in the PNG's own head (PNG specification, 11.2.2).
    expect(bytes.toString('latin1', at + 1, at + 4)).toBe('PNG');
    expect([bytes.readUInt32BE(at + 16), bytes.readUInt32BE(at + 20)]).toEqual([256, 256]);
    expect(
      statSync(join(import.meta.dirname, '../../../../../src/main/hosts/package/system/axlewright.png')).size,
    ).toBe(bytes.length - at);
  });
});
