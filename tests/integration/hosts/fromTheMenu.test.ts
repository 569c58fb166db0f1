import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { linkIn } from '../../../src/main/hosts/launcher/doorway.ts';
import { clientOf } from '../../support/clientOf.ts';
import { valueOf } from '../../support/bench/open.ts';
import { ended, linkOf } from '../../support/installed.ts';

const root = resolve(import.meta.dirname, '..', '..', '..');
const newFolder = (): string => mkdtempSync(join(tmpdir(), 'axlewright-menu-'));

/** A desktop whose programs only write down what they were started with. */
function desktop(preferred: string) {
  const folder = newFolder();
  const told = join(folder, 'told');
  const put = (name: string, script: string): void => {
    writeFileSync(join(folder, name), `#!/bin/sh\n${script}\n`);
    chmodSync(join(folder, name), 0o755);
  };
  put('xdg-settings', `echo ${preferred}`);
  for (const name of ['chromium', 'xdg-open']) put(name, `echo "${name} $*" >> '${told}'`);
  return {
    environment: { PATH: `${folder}:/usr/bin:/bin`, DISPLAY: ':0', HOME: folder, TMPDIR: folder },
    started: () => (existsSync(told) ? readFileSync(told, 'utf8').trim().split('\n') : []),
  };
}

const open = (data: string, env: NodeJS.ProcessEnv) =>
  spawn(process.execPath, ['src/main/cli/axlewright.ts', 'open', '--alone', '--data', data], { cwd: root, env });

describe.skipIf(process.platform !== 'linux')('the bench started from a menu', () => {
  it.each([
    ['chromium.desktop', 'chromium --app='],
    ['firefox-esr.desktop', 'xdg-open '],
  ])(
    'is shown by the browser the person chose (%s), which is told no token, and is ended from its screens',
    async (preferred, begin) => {
      const { environment, started } = desktop(preferred);
      const records = newFolder();
      const bench = open(records, environment);
      const link = await linkOf(bench);
      const closed = ended(bench);
      await expect.poll(started, { timeout: 20_000 }).toHaveLength(1);
      const [words = ''] = started();
      expect(words.startsWith(`${begin}file://`)).toBe(true);
      expect(words).not.toContain('token');
      expect(linkIn(records)).toBe(link);
      const { client, close } = await clientOf(link);
      expect(valueOf(await client.ask('bench.about', {})).mayEnd).toBe(true);
      valueOf(await client.ask('bench.end', {}));
      expect((await closed).code).toBe(0);
      expect(linkIn(records)).toBeUndefined();
      close();
    },
  );

  it('says on a page why it could not be opened', async () => {
    const { environment, started } = desktop('chromium.desktop');
    const records = join(newFolder(), 'a-file');
    writeFileSync(records, 'no folder');
    expect((await ended(open(records, environment))).code).toBe(1);
    await expect.poll(started, { timeout: 20_000 }).toHaveLength(1);
    const [words = ''] = started();
    const page = readFileSync(fileURLToPath(words.split(' ')[1] ?? ''), 'utf8');
    expect(page).toContain('The bench could not be opened');
    expect(page).toContain('a-file');
  });
});
