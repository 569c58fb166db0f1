// What a machine has, and how to get what is missing. Plain Node 20 or newer, no dependencies: this runs
// before anything is installed.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';

/** The Node major this project runs on: the one Electron carries, so that native parts are the same everywhere. */
export const nodeMajor = 24;

/** @param {string} sentence */
export const say = (sentence) => process.stderr.write(`axlewright: ${sentence}\n`);

/**
 * @param {string} command
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env]
 */
export function run(command, args, env = process.env) {
  const result = spawnSync(command, args, {
    stdio: 'inherit',
    env,
    shell: process.platform === 'win32' && !command.endsWith('.exe'),
  });
  return result.status ?? 1;
}

const lookForParent_ms = 500;

/**
 * The same for work that may go on until it is ended: whoever ends this process ends that work too. The shell that npm
 * puts between passes no signal on, so its end is looked for as well.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} env
 */
export async function runUntilEnded(command, args, env) {
  const child = spawn(command, args, { stdio: 'inherit', env });
  const parent = process.ppid;
  // A terminal gives Ctrl+C to both of us by itself.
  process.on('SIGINT', () => process.stdin.isTTY || child.kill('SIGINT'));
  process.on('SIGTERM', () => child.kill('SIGTERM'));
  process.on('SIGHUP', () => child.kill('SIGHUP'));
  const orphaned = setInterval(() => process.ppid !== parent && child.kill('SIGTERM'), lookForParent_ms);
  const [code] = await once(child, 'exit');
  clearInterval(orphaned);
  return typeof code === 'number' ? code : 1;
}

/** Installs the packages when the lock has changed since the last time. Nothing we use needs an install script. @param {string} root */
export function installPackages(root) {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex');
  const stamp = join(root, 'node_modules', '.installed-lock');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return 0;
  say('installing packages (about half a minute) …');
  // npm's own chatter goes to standard error: standard output belongs to the command that was asked for.
  const result = spawnSync('npm', ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'], {
    cwd: root,
    stdio: ['ignore', process.stderr, process.stderr],
    shell: process.platform === 'win32',
  });
  if (result.status !== 0) {
    say('the packages could not be installed; npm says why above. Is the machine online?');
    return result.status ?? 1;
  }
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, lock);
  return 0;
}

/**
 * The Node to run on: this one if its major fits, else the one from the optional packages.
 * @param {string} root
 * @param {{version: string, execPath: string, platform: string, arch: string}} own
 * @param {(path: string) => boolean} [exists]
 * @returns {string | undefined}
 */
export function nodeToUse(root, own, exists = existsSync) {
  if (Number(own.version.split('.')[0]) === nodeMajor) return own.execPath;
  const platform = own.platform === 'win32' ? 'win' : own.platform;
  const file = own.platform === 'win32' ? 'node.exe' : 'node';
  const bundled = join(root, 'node_modules', `node-${platform}-${own.arch}`, 'bin', file);
  return exists(bundled) ? bundled : undefined;
}

const knownBrowsers = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
];

/** @param {(path: string) => boolean} [exists] */
export const findBrowser = (exists = existsSync) =>
  [process.env['CHROMIUM_PATH'], ...knownBrowsers].find((path) => path !== undefined && exists(path));

/**
 * A Chromium for the browser tests: what is there, else Debian's package as root, else Playwright's own.
 * @param {string} root
 * @param {string} node
 * @param {NodeJS.ProcessEnv} env
 */
export function browserForTests(root, node, env) {
  const found = findBrowser();
  if (found !== undefined) return found;
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    say('installing Chromium for the browser tests (Debian package) …');
    const quiet = { ...env, DEBIAN_FRONTEND: 'noninteractive' };
    run('apt-get', ['update', '-qq'], quiet);
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
    return findBrowser();
  }
  say('installing Chromium for the browser tests (Playwright) …');
  run(node, [join(root, 'node_modules', 'playwright', 'cli.js'), 'install', 'chromium'], env);
  return findBrowser();
}

const peers = [
  { file: '/usr/sbin/ser2net', packages: ['ser2net'] },
  {
    file: '/usr/lib/python3/dist-packages/pymodbus/__init__.py',
    packages: ['python3', 'python3-pymodbus', 'python3-serial-asyncio'],
  },
  { file: '/usr/bin/makensis', packages: ['nsis'] },
  { file: '/usr/bin/7z', packages: ['p7zip-full'] },
  // What the archive of several benches runs on; Debian 12 has 15.
  { file: '/usr/lib/postgresql/15/bin/initdb', packages: ['postgresql'] },
  // What judges the certificate's format, and what it runs on.
  {
    file: '/usr/share/java/preflight.jar',
    packages: ['libpdfbox2-java', 'libcommons-logging-java', 'libactivation-java', 'libjaxb-api-java'],
  },
  { file: '/usr/bin/java', packages: ['default-jre-headless'] },
];

/**
 * The Debian packages of programs that are not ours and that tests talk to, as far as they are missing here.
 * @param {(path: string) => boolean} [exists]
 */
export const peersMissing = (exists = existsSync) =>
  peers.filter(({ file }) => !exists(file)).flatMap(({ packages }) => packages);

/**
 * Installs those where that can be done, as root on Debian. Where it cannot their tests are skipped and say so.
 * @param {NodeJS.ProcessEnv} env
 */
export function peersForTests(env) {
  const missing = peersMissing();
  if (missing.length === 0 || process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return;
  say(`installing ${missing.join(', ')} for the tests that talk to them (Debian packages) …`);
  const quiet = { ...env, DEBIAN_FRONTEND: 'noninteractive' };
  run('apt-get', ['update', '-qq'], quiet);
  run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...missing], quiet);
}

/** @param {string} node @param {string} root */
export const environmentFor = (node, root) => ({
  ...process.env,
  // What Node has compiled is kept: the sources are stripped of their types once and not at every start.
  NODE_COMPILE_CACHE: join(root, 'node_modules', '.compiled'),
  PATH: [dirname(node), join(root, 'node_modules', '.bin'), process.env['PATH']].join(delimiter),
});
