import { type Stats, statSync } from 'node:fs';

/** Undefined too for a name that can be no file's: whoever opens it says why. */
export function statOf(file: string): Stats | undefined {
  try {
    return statSync(file);
  } catch {
    return undefined;
  }
}

export const sizeOf = (file: string): number => statOf(file)?.size ?? 0;
