import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { ok, type Result } from '../../shared/basics/result.ts';
import type { Version } from '../../shared/contract/about.ts';
import type { BenchOptions } from './parts.ts';
import { bytesAt, compareVersions, versionsIn } from './versions.ts';

/** What the program says of itself, and of newer ones when it is asked. Nothing here happens by itself. */
export function aboutAnswers({
  version,
  installed,
}: Pick<BenchOptions, 'version' | 'installed'>): Pick<BenchAnswers, 'about.parts' | 'about.newer'> {
  return {
    'about.parts': async () => {
      const versions = installed === undefined ? ok([]) : ownVersions(installed);
      return ok({
        versions: versions.ok ? versions.value.filter((one) => compareVersions(one.version, version) <= 0) : [],
        licences: installed === undefined ? [] : licencesIn(installed),
      });
    },
    'about.newer': async ({ at }) => {
      const bytes = await bytesAt(at);
      if (!bytes.ok) return bytes;
      const versions = versionsIn(bytes.value);
      if (!versions.ok) return versions;
      const [newest] = versions.value;
      if (newest === undefined) throw new Error('a list of versions has one at least');
      return ok({ newest, newer: versions.value.filter((one) => compareVersions(one.version, version) > 0) });
    },
  };
}

function ownVersions(installed: string): Result<readonly Version[]> {
  const file = join(installed, 'docs', 'versions.json');
  return existsSync(file) ? versionsIn(readFileSync(file)) : ok([]);
}

/** Written when a package is made: each part with its version and licence. */
function licencesIn(installed: string): string[] {
  const file = join(installed, 'licences', 'parts.txt');
  return existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : [];
}
