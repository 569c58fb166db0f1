import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { TakenPicture } from './contactSheet.ts';

const kept = z.array(
  z.object({
    look: z.string(),
    name: z.string(),
    file: z.string(),
    faults: z.array(z.string()),
    blank: z.number(),
    far: z.record(z.string(), z.number()),
  }),
);

/**
 * What this run took together with what earlier runs left in the folder, so that seventeen looks can be taken two at a time
 * and still come to one table. A screen taken again takes the place of its last picture.
 */
export function together(folder: string, taken: readonly TakenPicture[]): readonly TakenPicture[] {
  const file = join(folder, 'taken.json');
  const before = existsSync(file) ? kept.parse(JSON.parse(readFileSync(file, 'utf8'))) : [];
  const key = ({ look, name }: Pick<TakenPicture, 'look' | 'name'>): string => `${look} ${name}`;
  const all = [...new Map([...before, ...taken].map((one) => [key(one), one])).values()];
  writeFileSync(file, JSON.stringify(all));
  return all;
}
