import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { newFolder } from '../../support/bench/open.ts';

const program = join(import.meta.dirname, '..', '..', 'support', 'archive', 'whatIsLoaded.mjs');
const told = z.object({ loaded: z.array(z.string()), begun: z.array(z.string()) });

const benchWith = (...address: readonly string[]) =>
  told.parse(JSON.parse(execFileSync(process.execPath, [program, newFolder(), ...address], { encoding: 'utf8' })));

const ofPostgres = (url: string): boolean => url.includes('/node_modules/postgres/') || /archive\/connect/u.test(url);
const ofArchive = (file: string): boolean => file.includes('archiveWorker');

it('loads nothing of an archive and begins no thread for it where none is chosen', () => {
  const { loaded, begun } = benchWith();
  expect(loaded.some((url) => url.endsWith('/store/notebooks.ts'))).toBe(true);
  expect(loaded.filter(ofPostgres)).toEqual([]);
  expect(begun.filter(ofArchive)).toEqual([]);
});

it('keeps all of it in a thread where one is chosen', () => {
  const { loaded, begun } = benchWith('postgres://bench_1@127.0.0.1:9/archive');
  expect(loaded.filter(ofPostgres)).toEqual([]);
  expect(begun.filter(ofArchive)).toHaveLength(1);
});
