import { resolve } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'electron-vite';
import { hashOfSources } from './src/main/certificate/measuring.ts';

/**
 * Three programs: the Electron main process with the bench as a process of its own (and threads of that for rows on their way
 * to the disk, for backups, for looking through the records, for the archive, for papers and exports), the sandboxed preload,
 * and the screens, which are one page for both hosts (Electron serves it as app://, the loopback host over HTTP).
 */
export default defineConfig({
  main: {
    define: { BUILT_MEASURING_HASH: JSON.stringify(hashOfSources(resolve('.'))) },
    build: {
      outDir: resolve('out/main'),
      rollupOptions: {
        input: {
          index: resolve('src/main/hosts/electron/main.ts'),
          benchProcess: resolve('src/main/hosts/electron/benchProcess.ts'),
          backupWorker: resolve('src/main/backup/backupWorker.ts'),
          rowsWorker: resolve('src/main/journal/apart/rowsWorker.ts'),
          pagesWorker: resolve('src/main/store/pagesWorker.ts'),
          archiveWorker: resolve('src/main/archive/archiveWorker.ts'),
          paperWorker: resolve('src/main/exports/apart/paperWorker.ts'),
        },
      },
    },
  },
  preload: {
    build: {
      outDir: resolve('out/preload'),
      rollupOptions: {
        input: { preload: resolve('src/main/hosts/electron/preload.ts') },
        // A sandboxed preload must be CommonJS.
        output: { format: 'cjs' },
      },
    },
  },
  renderer: {
    // The worker that reads photos is a module like the page, with its parts beside it.
    worker: { format: 'es' },
    root: resolve('src/renderer'),
    base: './',
    plugins: [react()],
    build: {
      minify: true,
      outDir: resolve('out/renderer'),
      // A picture inlined as data: would be refused as a font by the content policy.
      assetsInlineLimit: 0,
      rollupOptions: { input: resolve('src/renderer/index.html') },
    },
  },
});
