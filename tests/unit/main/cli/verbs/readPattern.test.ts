import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { asJpeg, photograph } from '../../../../../hardware-sim/photos/photograph.ts';
import { drawScene } from '../../../../../hardware-sim/photos/scene.ts';
import { seeded } from '../../../../../hardware-sim/seeded.ts';
import { runCommandLine } from '../../../../../src/main/cli/run.ts';
import { readPattern } from '../../../../../src/main/cli/verbs/readPattern.ts';
import { pngHead } from '../../../../support/photos.ts';

const random = seeded(12);
const picture = photograph(drawScene(random, [1000, 750]), random);
const corners = picture.tapped.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
let folder = '';
const at = (name: string): string => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'painted-teeth-'));
  writeFileSync(at('tooth.jpg'), asJpeg(picture.photo, 88));
  const png = new PNG({ width: 1000, height: 750 });
  png.data.set(picture.photo.data);
  writeFileSync(at('tooth.png'), PNG.sync.write(png));
  png.data.fill(120);
  writeFileSync(at('grey.png'), PNG.sync.write(png));
  writeFileSync(at('broken.jpg'), asJpeg(picture.photo, 88).subarray(0, 300));
  writeFileSync(at('words.jpg'), 'no picture');
});
afterAll(() => rmSync(folder, { recursive: true }));

async function run(...words: readonly string[]) {
  const answers: unknown[] = [];
  const said: string[] = [];
  const code = await runCommandLine([readPattern], ['read-pattern', ...words, '--json'], {
    answer: (value) => answers.push(value),
    say: (sentence) => said.push(sentence),
  });
  return { code, answers, said: said.join('\n') };
}

describe('read-pattern and the cut', () => {
  test('takes a cut it knows, and names the option where it does not', async () => {
    const given = ['--photo', at('tooth.jpg'), '--corners', corners] as const;
    for (const cut of ['face-milled', 'face-hobbed', 'not-known']) {
      expect((await run(...given, '--cut', cut)).code).toBe(0);
    }
    const { code, answers, said } = await run(...given, '--cut', 'round');
    expect({ code, answers }).toEqual({ code: 2, answers: [] });
    expect(said).toContain('--cut: "round" is not a cut.');
  });
});

describe('read-pattern and pictures that promise more than they are', () => {
  test.each([
    ['60,000 by 60,000 pixels in 57 bytes', pngHead(60_000, 60_000), /60000 by 60000 pixels/u],
    ['30,000 by 30,000 pixels', pngHead(30_000, 30_000), /30000 by 30000 pixels/u],
    ['7,000 by 7,000 pixels in 57 bytes', pngHead(7000, 7000), /cut off or damaged/u],
    ['no pixels', pngHead(0, 0), /damaged/u],
    ['65,535 by 65,535 pixels as JPEG', jpegHead(65_535, 65_535), /65535 by 65535 pixels/u],
  ])('refuses %s by its head', async (_what, bytes, why) => {
    writeFileSync(at('bomb'), bytes);
    const before = process.memoryUsage().rss;
    const { code, answers, said } = await run('--photo', at('bomb'), '--corners', corners);
    expect({ code, answers }).toEqual({ code: 2, answers: [] });
    expect(said).toMatch(why);
    // Nothing was decoded: the smallest of these would have taken 200 MB.
    expect(process.memoryUsage().rss - before).toBeLessThan(100e6);
  });
});

/** A JPEG that ends behind its frame header. */
const jpegHead = (width: number, height: number): Buffer => {
  const size = Buffer.alloc(4);
  size.writeUInt16BE(height, 0);
  size.writeUInt16BE(width, 2);
  const components = Buffer.from([3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0]);
  return Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xc0, 0, 17, 8]), size, components, Buffer.from([0xff, 0xd9])]);
};

describe('read-pattern', () => {
  test.each(['tooth.jpg', 'tooth.png'])('answers with a mark, its area and warnings: %s', async (name) => {
    const { code, answers } = await run('--photo', at(name), '--corners', corners);
    expect(code).toBe(0);
    expect(answers).toHaveLength(1);
    const mark = answers[0] as Record<string, unknown>;
    expect(Object.keys(mark).toSorted()).toEqual([
      'U95',
      'area',
      'crown',
      'edges',
      'heel',
      'height',
      'length',
      'slant_deg',
      'warnings',
    ]);
    expect(Math.abs(Number(mark['heel']) - picture.mark.heel)).toBeLessThan(0.04);
    expect(Math.abs(Number(mark['crown']) - picture.mark.crown)).toBeLessThan(0.06);
  });

  test('ends with 1 and why where no mark can be read', async () => {
    const { code, answers, said } = await run('--photo', at('grey.png'), '--corners', corners);
    expect(code).toBe(1);
    expect(answers).toEqual([]);
    expect(said).toMatch(/mark|too dark/u);
  });

  test.each([
    ['a corner too few', 'tooth.png', '1,2 3,4 5,6', /--corners, corner 4/u],
    ['a corner that is no number', 'tooth.png', '1,2 3,x 5,6 7,8', /--corners, corner 2/u],
    ['a corner outside', 'tooth.png', '1,2 3,400 5000,6 7,8', /--corners, corner 3.*outside/u],
    ['corners crosswise', 'tooth.png', '100,400 600,400 100,100 600,100', /four corners/u],
    ['no such photo', 'nothing.jpg', corners, /--photo.*cannot be read/u],
    ['no picture', 'words.jpg', corners, /--photo.*neither a JPEG nor a PNG/u],
    ['a damaged picture', 'broken.jpg', corners, /--photo.*damaged/u],
  ])('ends with 2 and names the option: %s', async (_, name, given, words) => {
    const { code, answers, said } = await run('--photo', at(name), '--corners', given);
    expect(code).toBe(2);
    expect(answers).toEqual([]);
    expect(said).toMatch(words);
  });
});
