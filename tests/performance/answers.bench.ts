import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { plans, predictions, streams } from './answers/inputs.ts';

export const takesWords = true;

const root = join(import.meta.dirname, '..', '..');

interface Answer {
  readonly asked: string;
  readonly status: number | null;
  readonly said: string;
}

/**
 * Asks two commits the same questions and says where the answers differ: `npm run bench answers 379badc HEAD`. The
 * records come from a demo of the first commit, so that both read the same journal. For changes that must change nothing.
 */
export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  const [before, after] = words;
  if (before === undefined || after === undefined) {
    print('name two commits to compare: npm run bench answers BEFORE AFTER');
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'answers-'));
  try {
    const records = recordsOf(checkedOut(before, join(folder, 'before')), folder);
    writeInputs(folder);
    const first = answersOf(join(folder, 'before'), folder, records);
    const second = answersOf(checkedOut(after, join(folder, 'after')), folder, records);
    tell(first, second, print);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function tell(first: readonly Answer[], second: readonly Answer[], print: (line: string) => void): void {
  const different = first.filter(
    (answer, index) => answer.said !== second[index]?.said || answer.status !== second[index]?.status,
  );
  const given = first.filter(({ status }) => status === 0).length;
  print(`${first.length} answers compared byte for byte (${given} exit 0), ${different.length} differ`);
  for (const answer of different) {
    print(`  ${answer.asked}`);
    print(`    before: ${answer.status} ${answer.said.slice(0, 300)}`);
    print(`    after:  ${second[first.indexOf(answer)]?.status} ${second[first.indexOf(answer)]?.said.slice(0, 300)}`);
  }
  if (different.length > 0) process.exitCode = 1;
}

function checkedOut(revision: string, folder: string): string {
  mkdirSync(folder);
  const archive = execFileSync('git', ['archive', revision], { cwd: root, maxBuffer: 2 ** 30 });
  execFileSync('tar', ['-x', '-C', folder], { input: archive });
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
  return folder;
}

const commandLine = (house: string, words: readonly string[]) =>
  spawnSync(process.execPath, ['src/main/cli/axlewright.ts', ...words], { cwd: house, encoding: 'utf8' });

/** A demo's records, and the builds in them. */
function recordsOf(house: string, folder: string): { readonly data: string; readonly builds: readonly string[] } {
  const out = join(folder, 'demo');
  const { status, stderr } = commandLine(house, ['demo', '--out', out]);
  if (status !== 0) throw new Error(`the demo failed: ${stderr}`);
  const data = join(folder, 'records');
  cpSync(join(out, 'data'), data, { recursive: true });
  const listed = commandLine(house, ['builds', '--data', data, '--json']).stdout;
  const ids = [...listed.matchAll(/"(?:id|build)":"([^"]+)"/gu)].map(([, id]) => id ?? '');
  return { data, builds: [...new Set(ids)] };
}

function writeInputs(folder: string): void {
  for (const { name, lines } of [...streams, predictions, plans])
    writeFileSync(join(folder, `${name}.jsonl`), lines.map((line) => `${JSON.stringify(line)}\n`).join(''));
}

function answersOf(
  house: string,
  folder: string,
  records: { readonly data: string; readonly builds: readonly string[] },
) {
  const questions = [
    ...streams.map(({ name, verb, words }) => ['measure', verb, '--in', join(folder, `${name}.jsonl`), ...words]),
    ['predict', '--in', join(folder, `${predictions.name}.jsonl`)],
    ['plan', '--in', join(folder, `${plans.name}.jsonl`)],
    ['builds', '--data', records.data],
    ['schema', 'certificate'],
    ['--help'],
  ];
  const asked = questions.map((words): Answer => {
    const { status, stdout, stderr } = commandLine(house, [...words, '--json']);
    return { asked: words.join(' ').replaceAll(folder, ''), status, said: stdout === '' ? stderr : stdout };
  });
  return [...asked, ...records.builds.map((build) => certificateOf(house, folder, records.data, build))];
}

/** The certificate's data for a build of the same journal. */
function certificateOf(house: string, folder: string, data: string, build: string): Answer {
  const out = mkdtempSync(join(folder, 'out-'));
  const { status } = commandLine(house, ['export', '--build', build, '--as', 'json', '--out', out, '--data', data]);
  const names = execFileSync('ls', [out], { encoding: 'utf8' }).trim().split('\n');
  const said = names.map((name) => (name === '' ? '' : readFileSync(join(out, name), 'utf8'))).join('\n');
  return { asked: `export --as json (${names.join(', ')})`, status, said };
}

if (import.meta.main) await bench((line) => void process.stdout.write(`${line}\n`), process.argv.slice(2));
