import { existsSync } from 'node:fs';
import { join } from 'node:path';

/** The program of a thread: beside the file that starts it (`here`) as it is written, beside the bench's own program where it is built. */
export function threadProgram(here: string, name: string): string {
  const places = [join(here, `${name}.ts`), join(here, `${name}.js`), join(here, '..', `${name}.js`)];
  return places.find((place) => existsSync(place)) ?? join(here, `${name}.ts`);
}
