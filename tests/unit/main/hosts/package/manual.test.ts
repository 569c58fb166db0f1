import { spawnSync } from 'node:child_process';
import { writeFileSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { told } from '../../../../../src/main/cli/told.ts';
import { completion, manualPage } from '../../../../../src/main/hosts/package/manual.ts';

/** What bash offers after these words. */
function offered(words: readonly string[]): readonly string[] {
  const file = join(mkdtempSync(join(tmpdir(), 'axlewright-completion-')), 'completion');
  writeFileSync(file, completion(told));
  const script = `source "$1"; shift; COMP_WORDS=(axlewright "$@"); COMP_CWORD=$#; _axlewright; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { stdout } = spawnSync('bash', ['-c', script, 'bash', file, ...words], { encoding: 'utf8' });
  return stdout.trim().split('\n');
}

describe('completion', () => {
  it('offers the verbs, then the options of the verb', () => {
    expect(offered(['ver'])).toEqual(['verify']);
    expect(offered([''])).toEqual([...Object.keys(told), '--help']);
    expect(offered(['export', '--p'])).toEqual(['--photos', '--page']);
    expect(offered(['plan', '--'])).toEqual(['--in', '--json']);
  });
});

describe('the manual page', () => {
  it('names every verb as the help does, with hyphens that can be copied', () => {
    const page = manualPage(told, '1.2.3');
    for (const { usage, summary } of Object.values(told)) {
      expect(page).toContain(usage.replaceAll('-', '\\-'));
      expect(page).toContain(summary.replaceAll('-', '\\-'));
    }
    expect(page).toContain('"Axlewright 1.2.3"');
  });
});
