import { join } from 'node:path';
import { build, type Rolldown } from 'vite';
import electronConfig from '../../../../electron.config.ts';
import { copyFile, leftOutside } from './parts.ts';

/** What the certificate's library reads beside its own code: the colour profile that PDF/A asks for. */
const profile = 'sRGB_IEC61966_2_1.icc';

/**
 * Bundles the command line, and with it the bench, into `to`: split by verb, so that a line that asks for one figure reads no
 * more than that figure needs. Electron is left out; a package has its screens in a browser.
 * @returns the packages whose code is inside.
 */
export async function layProgram(root: string, to: string): Promise<readonly string[]> {
  const programs = Object.entries(builtPrograms()).filter(([name]) => !electronsOwn.has(name));
  return bundle(root, to, { axlewright: join(root, 'src/main/cli/axlewright.ts'), ...Object.fromEntries(programs) });
}

/** The same for Electron: its main program, the bench as a process of its own, and the threads of that. */
export const layElectronProgram = (root: string, to: string): Promise<readonly string[]> =>
  bundle(root, to, builtPrograms());

async function bundle(root: string, to: string, input: Readonly<Record<string, string>>): Promise<readonly string[]> {
  const built = await build({
    configFile: false,
    root,
    logLevel: 'warn',
    publicDir: false,
    ssr: { noExternal: true },
    define: electronConfig.main?.define ?? {},
    build: {
      ssr: true,
      target: 'node24',
      outDir: to,
      emptyOutDir: true,
      // Names stay as written: the log tells a fault by them.
      minify: false,
      rolldownOptions: {
        input,
        external: [...leftOutside, 'electron'],
        output: { format: 'esm', entryFileNames: '[name].js', chunkFileNames: '[name].js' },
      },
    },
  });
  copyFile(join(root, 'node_modules/pdfkit/js/data', profile), join(to, 'data', profile));
  return packagesIn(Array.isArray(built) ? built : [built]);
}

/** Electron's own; whatever else is built beside them runs in a thread or process of its own here too. */
const electronsOwn = new Set(['index', 'benchProcess']);

/** The programs that Electron's configuration names, each by its file. */
function builtPrograms(): Readonly<Record<string, string>> {
  const input = electronConfig.main?.build?.rollupOptions?.input;
  if (typeof input !== 'object' || Array.isArray(input)) throw new Error('electron.config.ts names no programs');
  return input;
}

type Built = Awaited<ReturnType<typeof build>>;

function packagesIn(built: readonly Exclude<Built, unknown[]>[]): readonly string[] {
  const names = new Set<string>();
  for (const one of built) {
    if (!('output' in one)) continue;
    for (const part of one.output) if (part.type === 'chunk') for (const name of packagesOf(part)) names.add(name);
  }
  return [...names].toSorted();
}

/** The folders under node_modules that a chunk's modules come from. */
const packagesOf = (chunk: Rolldown.OutputChunk): readonly string[] =>
  chunk.moduleIds.flatMap((id) => /.*\/node_modules\/((?:@[^/]+\/)?[^/]+)\//u.exec(id)?.[1] ?? []);
