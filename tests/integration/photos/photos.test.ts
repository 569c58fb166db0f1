import { createHash } from 'node:crypto';
import { appendFileSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { PhotoFolder } from '../../../src/shared/contract/photos.ts';
import type { BenchService } from '../../../src/shared/contract/contract.ts';
import { readNotebook } from '../../../src/shared/job/records/build.ts';
import { isNone } from '../../../src/shared/basics/result.ts';
import { benchInNewFolder, newFolder, valueOf } from '../../support/bench/open.ts';
import { buildInTrial } from '../../support/benchPage.ts';
import { inProcess } from '../../support/commandLine.ts';
import { plainJpeg, pngHead, withPlace } from '../../support/photos.ts';

const by = 'R. Lindqvist';
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

describe('photos of a trial', () => {
  const folder = newFolder();
  let service: BenchService;
  let ids: { build: string; trial: string };
  beforeAll(async () => {
    service = benchInNewFolder(undefined, folder);
    ids = await buildInTrial(service);
  });
  afterAll(() => service.close());

  const keep = (jpeg: Uint8Array, assembly = ids.trial) =>
    service.answers['photos.keep']({ build: ids.build, by, assembly, from: 'file', jpeg_base64: base64(jpeg) });

  it('are stored by what is in them, without place and owner, and stand in the notebook', async () => {
    const place = 'GPS 59.3293 N 18.0686 E';
    const { photo, notebook } = valueOf(await keep(withPlace(plainJpeg(40, 30), place)));
    expect(photo).toMatchObject({ width: 40, height: 30 });
    const { jpeg_base64 } = valueOf(await service.answers['photos.read']({ sha256: photo.sha256 }));
    const stored = Buffer.from(jpeg_base64, 'base64');
    expect(stored.includes(place)).toBe(false);
    expect(createHash('sha256').update(stored).digest('hex')).toBe(photo.sha256);
    const [trial] = readNotebook(notebook.id, notebook.entries).assemblies;
    expect(trial?.photos).toMatchObject([{ ...photo, from: 'file', by }]);
  });

  it('are one photo when they are the same, and survive a new start of the bench', async () => {
    const first = valueOf(await keep(plainJpeg(64, 48)));
    const again = valueOf(await keep(plainJpeg(64, 48)));
    expect(again.photo).toEqual(first.photo);
    const [trial] = readNotebook(ids.build, again.notebook.entries).assemblies;
    expect(trial?.photos.filter(({ sha256 }) => sha256 === first.photo.sha256)).toHaveLength(1);
    await service.close();
    service = benchInNewFolder(undefined, folder);
    const kept = valueOf(await service.answers['photos.read']({ sha256: first.photo.sha256 }));
    expect(kept.jpeg_base64).toBe(base64(plainJpeg(64, 48)));
  });

  it('are refused in a sentence when broken off, too large or no JPEG, and nothing is written then', async () => {
    const before = valueOf(await service.answers['builds.read']({ build: ids.build })).entries.length;
    const whole = plainJpeg(64, 48);
    for (const bad of [whole.subarray(0, 400), Buffer.from('not a picture'), plainJpeg(2100, 20)]) {
      const refused = await keep(bad);
      expect(refused.ok ? undefined : refused.problem.kind).toBe('broken-photo');
    }
    const nowhere = await keep(whole, 'no-such-assembly');
    expect(nowhere.ok ? undefined : nowhere.problem.kind).toBe('misplaced');
    expect(valueOf(await service.answers['builds.read']({ build: ids.build })).entries).toHaveLength(before);
  });

  it('are exported on request, byte for byte, and only then', async () => {
    const { photo } = valueOf(await keep(plainJpeg(96, 72)));
    const words = ['--build', ids.build, '--as', 'json', '--data', folder];
    const without = await inProcess('export', ...words, '--out', newFolder());
    expect((without.answers[0] as { files: string[] }).files).toHaveLength(1);
    const beside = await inProcess('export', ...words, '--out', newFolder(), '--photos');
    const { files } = beside.answers[0] as { files: string[] };
    const exported = files.filter((file) => file.endsWith('.jpg')).map((file) => readFileSync(file));
    expect(exported.map((bytes) => createHash('sha256').update(bytes).digest('hex'))).toContain(photo.sha256);
    // The certificate's data names every photo of the build by its hash.
    expect(readFileSync(files.find((file) => file.endsWith('.json')) ?? '', 'utf8')).toContain(photo.sha256);
  });

  it('that are not there are said to be not there', async () => {
    const missing = await service.answers['photos.read']({ sha256: '0'.repeat(64) });
    expect(missing.ok ? undefined : missing.problem.kind).toBe('no-photo');
  });
});

describe('the folder photos come into', () => {
  const inbox = join(newFolder(), 'inbox');
  const folder = newFolder();
  let service: BenchService;
  let told: PhotoFolder[] = [];
  beforeAll(() => {
    mkdirSync(inbox);
    writeFileSync(join(inbox, 'of-last-week.jpg'), plainJpeg(20, 20));
    service = benchInNewFolder(undefined, folder);
    service.hear('photo-folder', (state) => told.push(state));
  });
  afterAll(() => service.close());

  it('is watched by nobody until it is chosen, and a wrong one is refused', async () => {
    const state = valueOf(await service.answers['photos.folder']({}));
    expect(isNone(state.folder)).toBe(true);
    for (const wrong of ['relative/path', join(inbox, 'of-last-week.jpg'), join(inbox, 'nowhere')]) {
      const refused = await service.answers['photos.choose-folder']({ folder: wrong });
      expect(refused.ok ? undefined : refused.problem.field, wrong).toBe('folder');
    }
  });

  it('offers what comes from now on, once it is whole, and not what lay there before', async () => {
    // The clock of the disk has its own grain.
    await new Promise((resolve) => setTimeout(resolve, 30));
    const chosen = valueOf(await service.answers['photos.choose-folder']({ folder: inbox }));
    expect(chosen).toEqual({ folder: inbox, waiting: [] });
    told = [];
    const picture = plainJpeg(64, 48);
    const path = join(inbox, 'tooth.jpg');
    writeFileSync(path, picture.subarray(0, 500));
    await new Promise((resolve) => setTimeout(resolve, 350));
    appendFileSync(path, picture.subarray(500));
    writeFileSync(join(inbox, 'notes.txt'), 'not a photo');
    await vi.waitFor(() => expect(told.at(-1)?.waiting).toHaveLength(1), { timeout: 6000 });
    const [arrival] = told.at(-1)?.waiting ?? [];
    expect(arrival).toMatchObject({ file: 'tooth.jpg', bytes: picture.length });
    if (arrival === undefined) return;
    const fetched = valueOf(await service.answers['photos.fetch'](arrival));
    expect(fetched.base64).toBe(base64(picture));
    const settled = valueOf(await service.answers['photos.settle']({ ...named(arrival), became: 'put-aside' }));
    expect(settled.waiting).toEqual([]);
  });

  it('reads no file outside it, whatever a page sends', async () => {
    for (const file of ['../axlewright.db', '/etc/hostname', '..', 'gone.jpg']) {
      const refused = await service.answers['photos.fetch']({ file, modified_ms: 0 });
      expect(refused.ok ? undefined : refused.problem.kind, file).toBe('no-photo');
    }
  });

  it('gives out pictures that it offers, and nothing else that lies in it or is linked into it', async () => {
    const secret = join(newFolder(), 'secret.jpg');
    writeFileSync(secret, plainJpeg(30, 20));
    symlinkSync(secret, join(inbox, 'link.jpg'));
    writeFileSync(join(inbox, 'words.jpg'), 'customer list, under a picture’s name');
    writeFileSync(join(inbox, 'bomb.png'), pngHead(60_000, 60_000));
    writeFileSync(join(inbox, 'plain.jpg'), plainJpeg(40, 30));
    const waiting = async (): Promise<readonly string[]> =>
      valueOf(await service.answers['photos.folder']({})).waiting.map(({ file }) => file);
    await vi.waitFor(async () => expect(await waiting()).toContain('plain.jpg'), { timeout: 6000 });
    expect(await waiting()).not.toContain('link.jpg');
    for (const file of ['link.jpg', 'words.jpg', 'bomb.png', 'of-last-week.jpg', 'notes.txt']) {
      const refused = await service.answers['photos.fetch']({ file, modified_ms: 0 });
      expect(refused.ok ? `given: ${file}` : 'refused', file).toBe('refused');
    }
    expect((await service.answers['photos.fetch']({ file: 'plain.jpg', modified_ms: 0 })).ok).toBe(true);
  });

  it('is watched again after a new start, says when it is gone, and is let go', async () => {
    await service.close();
    service = benchInNewFolder(undefined, folder);
    expect(valueOf(await service.answers['photos.folder']({}))).toMatchObject({ folder: inbox });
    rmSync(inbox, { recursive: true });
    const gone = valueOf(await service.answers['photos.folder']({}));
    expect(gone.problem?.kind).toBe('no-photo-folder');
    const off = valueOf(await service.answers['photos.choose-folder']({ folder: { none: 'given up' } }));
    expect(isNone(off.folder)).toBe(true);
  });
});

const named = ({ file, modified_ms }: { file: string; modified_ms: number }) => ({ file, modified_ms });
