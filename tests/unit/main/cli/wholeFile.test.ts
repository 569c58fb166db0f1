import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readBytes, readText } from '../../../../src/main/cli/wholeFile.ts';
import { temporaryFolder } from '../../../support/folder.ts';

const option = '--in';

describe('a file that a line names', () => {
  it('is read whole', () => {
    const path = join(temporaryFolder(), 'Größe, 测量 💥.jsonl');
    writeFileSync(path, 'ü\n'.repeat(700_000));
    expect(readText(path, option)).toEqual({ ok: true, value: 'ü\n'.repeat(700_000) });
  });

  it.skipIf(process.platform === 'win32')('may be a pipe, which is read to its end', () => {
    const path = join(temporaryFolder(), 'pipe');
    spawnSync('mkfifo', [path]);
    const writer = spawn('sh', ['-c', `printf 'one\\ntwo\\n' > "$0"`, path]);
    expect(readText(path, option)).toEqual({ ok: true, value: 'one\ntwo\n' });
    expect(writer.pid).toBeDefined();
  });

  it.skipIf(process.platform === 'win32')('that never ends is refused, and so is one that is too large', () => {
    const path = join(temporaryFolder(), 'large');
    writeFileSync(path, Buffer.alloc(1024 * 1024 + 1));
    for (const endless of ['/dev/zero', '/dev/urandom', path])
      expect(readBytes({ path: endless, option, most_MB: 1 })).toMatchObject({
        ok: false,
        problem: {
          kind: 'file-too-large',
          field: option,
          sentence: `--in: ${endless} is larger than the 1 MB that are taken.`,
        },
      });
  });

  it('that cannot be read is named with its option', () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'folder'));
    symlinkSync('loop', join(folder, 'loop'));
    for (const name of ['not-there', 'folder', 'loop', 'a\0b', 'y'.repeat(400)])
      expect(readBytes({ path: join(folder, name), option }), name).toMatchObject({
        ok: false,
        problem: { kind: 'file-unreadable', field: option },
      });
  });
});
