import { spawnSync } from 'node:child_process';
import { closeSync, constants, openSync } from 'node:fs';

/** The two ends of a fresh pseudo-terminal: our descriptor, and the path that the other side opens. */
interface Terminal {
  readonly master: number;
  readonly path: string;
}

// Non-blocking: a write to a terminal that nobody reads would else keep one of Node's few file threads for ever.
// Closed in every child: a program started meanwhile would else keep the terminal open after its cable is pulled.
// O_CLOEXEC: Linux's asm-generic/fcntl.h (number from memory, proved by the test); Node gives it to what it opens itself.
const O_CLOEXEC = 0o2_000_000;
const FLAGS = constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK | O_CLOEXEC;

type LibraryCall = (...values: readonly unknown[]) => unknown;

function checked(result: unknown, call: string): void {
  if (result !== 0) throw new Error(`${call} failed`);
}

/** POSIX's own calls (IEEE Std 1003.1: posix_openpt, grantpt, unlockpt, ptsname) through a foreign-function library. */
async function byLibrary(): Promise<Terminal> {
  const { default: koffi } = await import('koffi');
  const library = koffi.load('libc.so.6');
  const call = (prototype: string): LibraryCall => library.func(prototype) as LibraryCall;
  const master = Number(call('int posix_openpt(int)')(FLAGS));
  if (master < 0) throw new Error('posix_openpt failed');
  checked(call('int grantpt(int)')(master), 'grantpt');
  checked(call('int unlockpt(int)')(master), 'unlockpt');
  return { master, path: String(call('const char *ptsname(int)')(master)) };
}

// TIOCSPTLCK unlocks, TIOCGPTN asks for the number: Linux's asm-generic/ioctls.h (numbers from memory, proved by the test).
const UNLOCK_AND_NAME =
  'my $z=pack("i",0); ioctl(STDIN,0x40045431,$z) or die $!; ioctl(STDIN,0x80045430,$z) or die $!; print unpack("i",$z)';

/** The same without the library: Perl, which every Debian has, works the descriptor it inherits. */
function byPerl(): Terminal {
  const master = openSync('/dev/ptmx', FLAGS);
  const answer = spawnSync('perl', ['-e', UNLOCK_AND_NAME], { stdio: [master, 'pipe', 'pipe'], encoding: 'utf8' });
  if (answer.status === 0) return { master, path: `/dev/pts/${answer.stdout}` };
  closeSync(master);
  throw new Error(`no pseudo-terminal: ${answer.error?.message ?? answer.stderr}`);
}

/** No echo, no line editing: the bytes pass as they are. */
function makeRaw(path: string): void {
  const { status, stderr } = spawnSync('stty', ['-F', path, 'raw', '-echo'], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`stty on ${path}: ${stderr}`);
}

/** Opens a pseudo-terminal. `way` is for tests; by itself it takes the library, and Perl where that does not load. */
export async function openTerminal(way: 'library' | 'perl' | 'either' = 'either'): Promise<Terminal> {
  const terminal =
    way === 'perl'
      ? byPerl()
      : await byLibrary().catch((cause: unknown) => (way === 'library' ? raise(cause) : byPerl()));
  makeRaw(terminal.path);
  return terminal;
}

function raise(cause: unknown): never {
  throw cause;
}
