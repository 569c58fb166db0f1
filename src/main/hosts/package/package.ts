// `npm run package`: what a person installs, made from this commit on this machine.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { sealDeb } from './deb.ts';
import { layPayload, ownPackage } from './payload.ts';
import { sizeOf } from './sealing.ts';
import { sealTarball } from './tarball.ts';

const root = join(import.meta.dirname, '..', '..', '..', '..');

const makers = { deb: sealDeb, tar: sealTarball } as const;
type Kind = keyof typeof makers;

const say = (sentence: string) => process.stderr.write(`axlewright: ${sentence}\n`);
const kindsOf = (words: readonly string[]): readonly Kind[] =>
  words.flatMap((word) => (word === 'deb' || word === 'tar' ? [word] : []));

async function make(words: readonly string[]): Promise<0 | 2> {
  const { values, positionals } = parseArgs({
    args: [...words],
    allowPositionals: true,
    options: { out: { type: 'string' }, quick: { type: 'boolean', default: false } },
  });
  const kinds = positionals.length === 0 ? (['deb', 'tar'] as const) : kindsOf(positionals);
  if (kinds.length < positionals.length) {
    say('npm run package -- [deb] [tar] [--out DIR] [--quick]');
    return 2;
  }
  const { version } = ownPackage(root);
  const out = values.out ?? join(root, 'out', 'package');
  mkdirSync(out, { recursive: true });
  const payload = join(out, `axlewright-${version}`);
  say('bundling the program …');
  await layPayload({ root, to: payload, system: 'linux-x64', node: nodeOf('linux-x64') });
  print('installed', sizeOf(payload));
  for (const kind of kinds) {
    say(`packing (${kind}) …`);
    const file = makers[kind]({ payload, version, epoch: epochOf(), out, quick: values.quick });
    print(file, statSync(file).size);
    process.stdout.write(`  SHA-256 ${createHash('sha256').update(readFileSync(file)).digest('hex')}\n`);
  }
  return 0;
}

const print = (name: string, bytes: number) => process.stdout.write(`${name}: ${(bytes / 1e6).toFixed(1)} MB\n`);

const nodeOf = (system: string): string => join(root, 'node_modules', `node-${system}`, 'bin', 'node');

/** The date of the commit, or the one the environment gives; without either the beginning of time. */
function epochOf(): number {
  const given = process.env['SOURCE_DATE_EPOCH'];
  if (given !== undefined && /^\d+$/u.test(given)) return Number(given);
  const { status, stdout } = spawnSync('git', ['log', '-1', '--format=%ct'], { cwd: root, encoding: 'utf8' });
  return status === 0 ? Number(stdout.trim()) : 0;
}

process.exit(await make(process.argv.slice(2)));
