// The way in for every npm command: sets the machine up if it must, then runs the work on Node 24.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  browserForTests,
  environmentFor,
  installPackages,
  nodeMajor,
  nodeToUse,
  peersForTests,
  run,
  runUntilEnded,
  say,
} from './machine.mjs';
import { readOpenWords } from './openWords.mjs';
import { buildNoting, screensAreNew } from './screens.mjs';
import { runTests } from './tests.mjs';

const root = join(import.meta.dirname, '..', '..', '..', '..');
process.chdir(root);
const [command = '', ...rest] = process.argv.slice(2);

const installed = installPackages(root);
if (installed !== 0) process.exit(installed);

const own = {
  version: process.versions.node,
  execPath: process.execPath,
  platform: process.platform,
  arch: process.arch,
};
const found = nodeToUse(root, own);
if (found === undefined) {
  say(
    `Node ${own.version} is here and Node ${nodeMajor} is needed; there is none to fetch for ${own.platform} ${own.arch}. Install Node ${nodeMajor} and run this again.`,
  );
  process.exit(1);
}
const node = found;
const env = environmentFor(node, root);

/** @param {readonly string[]} args */
const inNode = (args) => run(node, args, env);
/** @param {readonly string[]} args */
const inNodeUntilEnded = (args) => runUntilEnded(node, args, env);
const bin = (/** @type {string} */ name) => join(root, 'node_modules', name);

/** The screens are built once and again when a source is newer; both hosts serve the same files. */
function buildScreens() {
  if (screensAreNew(root)) return 0;
  say('building the screens …');
  const words = ['build', '--config', 'electron.config.ts', '--logLevel', 'error'];
  return buildNoting(root, () =>
    run(node, [bin('electron-vite/bin/electron-vite.js'), ...words], { ...env, NODE_ENV: 'production' }),
  );
}

/** @type {Record<string, () => number | Promise<number>>} */
const commands = {
  start: () => {
    // A wrong word is told at once, not after the screens are built.
    const asked = readOpenWords(rest);
    const isBuilt = !asked.ok || asked.value.help || buildScreens() === 0;
    return isBuilt ? inNodeUntilEnded(['src/main/hosts/launcher/open.ts', ...rest]) : 1;
  },
  demo: () => inNode(['src/main/cli/axlewright.ts', 'demo', '--out', join('out', 'demo'), ...rest]),
  axlewright: () => inNodeUntilEnded(['src/main/cli/axlewright.ts', ...rest]),
  check: () =>
    ['tsconfig.json', 'tsconfig.shared.json', 'tsconfig.renderer.json'].reduce(
      (failed, config) => failed || inNode([bin('typescript/bin/tsc'), '-p', config]),
      0,
    ) ||
    inNode([bin('oxlint/bin/oxlint'), '--type-aware', '--deny-warnings']) ||
    inNode([bin('oxfmt/bin/oxfmt'), '--check', '.']),
  test: () => {
    const browser = browserForTests(root, node, env);
    peersForTests(env);
    return (
      buildScreens() || runTests(root, node, browser === undefined ? env : { ...env, CHROMIUM_PATH: browser }, rest)
    );
  },
  bench: () => {
    const browser = browserForTests(root, node, env);
    return (
      buildScreens() ||
      run(
        node,
        ['tests/performance/bench.ts', ...rest],
        browser === undefined ? env : { ...env, CHROMIUM_PATH: browser },
      )
    );
  },
  package: () => buildScreens() || inNode(['src/main/hosts/package/package.ts', ...rest]),
  soak: () => buildScreens() || inNode(['tests/soak/soak.ts', ...rest]),
  pictures: () => {
    const browser = browserForTests(root, node, env);
    return (
      buildScreens() ||
      run(
        node,
        ['tests/support/pictures/take.ts', ...rest],
        browser === undefined ? env : { ...env, CHROMIUM_PATH: browser },
      )
    );
  },
};

const work = commands[command];
if (work === undefined || !existsSync(join(root, 'package.json'))) {
  say(`there is no command "${command}"; there is ${Object.keys(commands).join(', ')}.`);
  process.exit(2);
}
process.exit(await work());
