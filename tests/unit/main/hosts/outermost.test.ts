import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const outermost = join(import.meta.dirname, '..', '..', '..', '..', 'src', 'main', 'hosts', 'outermost.ts');

/** A program of its own that stumbles three times, with or without the ring. */
function stumble(ring: string): { readonly code: number | null; readonly said: string } {
  const program = `
    import { surviveDefects } from ${JSON.stringify(outermost)};
    ${ring}
    setTimeout(() => { throw new Error('in a listener'); }, 5);
    setTimeout(() => void Promise.reject(new Error('of an errand')), 10);
    setTimeout(() => { throw 'a word'; }, 15);
    setTimeout(() => { console.log('still here'); process.exit(0); }, 60);`;
  const { status, stdout } = spawnSync(process.execPath, ['--input-type=module-typescript', '-e', program], {
    encoding: 'utf8',
  });
  return { code: status, said: stdout };
}

describe('the outermost ring of a host', () => {
  it('gives on what nobody has caught, and goes on', () => {
    const { code, said } = stumble('surviveDefects((where, error) => console.log(where, String(error)));');
    expect(code).toBe(0);
    expect(said.trim().split('\n')).toEqual([
      'a listener Error: in a listener',
      'an errand Error: of an errand',
      'a listener a word',
      'still here',
    ]);
  });

  it('goes on also when noting it fails', () => {
    const { code, said } = stumble("surviveDefects(() => { throw new Error('no room'); });");
    expect({ code, said: said.trim() }).toEqual({ code: 0, said: 'still here' });
  });

  it('is needed: without it the program ends at the first', () => {
    expect(stumble('void surviveDefects;').code).not.toBe(0);
  });
});
