import { homedir } from 'node:os';
import type { LogEvent } from './logEvent.ts';

const mostFrames = 12;

/**
 * An error as the log keeps it: its name, code and places in the program, and its message without what stood in quotes,
 * which may be a person's words; paths begin at the home folder, whose name may be a person's too.
 */
export function traceOf(error: unknown): Omit<LogEvent, 'kind'> {
  if (!(error instanceof Error)) return { name: typeof error };
  const { code } = error as Error & { readonly code?: unknown };
  const frames = (error.stack ?? '')
    .split('\n')
    .filter((line) => line.trimStart().startsWith('at '))
    .slice(0, mostFrames)
    .map((line) => withoutHome(line.trim()));
  return {
    name: error.name,
    ...(typeof code === 'string' ? { code } : {}),
    message: withoutHome(withoutQuoted(error.message)).slice(0, 300),
    stack: frames,
  };
}

const withoutQuoted = (text: string): string => text.replaceAll(/"[^"]*"|'[^']*'|`[^`]*`|“[^”]*”/gsu, '"…"');

const withoutHome = (text: string, home = homedir()): string => text.replaceAll(home, '~');
