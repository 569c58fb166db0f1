// Photos are opened and read here, beside the page, so that the screen never stands still while it is done.
import type { FlankCorners, Photo } from '../../shared/axle/mark/photo.ts';
import { corrected, outlined, type Outlined } from '../../shared/axle/mark/brush.ts';
import type { Unreadable } from '../../shared/axle/mark/unreadable.ts';
import { layFlank } from '../../shared/axle/mark/layFlank.ts';
import { readPattern } from '../../shared/axle/mark/readPattern.ts';
import { type FlankRaster, straighten } from '../../shared/axle/mark/straighten.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import type { ReadAnswer, ReadAsk, ReadMark, StraightPicture, WorkerAnswers, WorkerAsk } from './messages.ts';
import { decoded, shrink } from './shrink.ts';

/** The photo that lies open; corners are in its pixels. */
let open: Photo | undefined;

addEventListener('message', ({ data }: MessageEvent<{ id: number; ask: WorkerAsk }>) => {
  void answer(data.ask).then((result) => postMessage({ id: data.id, answer: result }));
});

async function answer(ask: WorkerAsk): Promise<WorkerAnswers[WorkerAsk['do']]> {
  if (ask.do === 'shrink') return shrink(ask.file);
  if (ask.do === 'open') return openPhoto(ask.jpeg);
  return read(ask);
}

async function openPhoto(jpeg: Blob): Promise<WorkerAnswers['open']> {
  const bitmap = await decoded(jpeg);
  const context =
    bitmap === undefined ? null : new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d', canvasSettings);
  if (bitmap === undefined || context === null) return fail(notStored);
  context.drawImage(bitmap, 0, 0);
  const { width, height, data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
  open = { width, height, data };
  compileSoon(open);
  return ok({ width, height });
}

let compiled = false;

/**
 * The first reading of a page takes three times as long as the next, until the browser has compiled what reads. So the middle of
 * the first photo is read once for nobody, while the person looks for the corners.
 */
function compileSoon(photo: Photo): void {
  if (compiled) return;
  compiled = true;
  setTimeout(() => void readPattern(photo, middleOf(photo)));
}

const middleOf = ({ width, height }: Photo): FlankCorners => [
  [width * 0.25, height * 0.65],
  [width * 0.25, height * 0.35],
  [width * 0.75, height * 0.35],
  [width * 0.75, height * 0.65],
];

/** The picture is read back at once, so it is kept where reading is cheap. */
const canvasSettings = { willReadFrequently: true } as const;

function read(ask: ReadAsk): ReadAnswer {
  if (open === undefined) return { straight: undefined, result: fail(notStored), took_ms: 0 };
  const began = performance.now();
  const reading = markIn(open, ask);
  const took_ms = performance.now() - began;
  // Where nothing was read the flank is shown all the same: the brush needs it.
  const laid = reading.ok ? reading : layFlank(open, ask.corners, ask);
  const straight = laid.ok ? pictureOf(straighten(open, laid.value.map, shown)) : undefined;
  return { straight, result: reading.ok ? ok(markOf(reading.value)) : reading, took_ms };
}

/** Read by machine and changed with the brush, or outlined by hand from the beginning. */
function markIn(photo: Photo, ask: ReadAsk): Result<Outlined, Unreadable> {
  const { corners, brushed, fromEmpty } = ask;
  if (fromEmpty) return outlined(photo, corners, brushed, ask);
  const first = readPattern(photo, corners, ask);
  return first.ok && brushed.length > 0 ? corrected(first.value, brushed) : first;
}

function markOf({ mark, warnings, map, mask, raster }: Outlined): ReadMark {
  return {
    mark,
    warnings,
    bends: map.bends,
    mask: { columns: raster.columns, rows: raster.rows, cells: Uint8Array.from(mask) },
  };
}

/** Finer than what is read, for the eye. */
const shown = { columns: 640, rows: 230, low: 0, high: 1, samples: 2 } as const;

function pictureOf({ columns, rows, red, green, blue }: FlankRaster): StraightPicture {
  const rgba = new Uint8ClampedArray(4 * columns * rows);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      // Rows run from root to crown, pixels from above down.
      const from = row * columns + column;
      const to = 4 * ((rows - 1 - row) * columns + column);
      rgba[to] = byteOfLight(red[from] ?? 0);
      rgba[to + 1] = byteOfLight(green[from] ?? 0);
      rgba[to + 2] = byteOfLight(blue[from] ?? 0);
      rgba[to + 3] = 255;
    }
  }
  return { width: columns, height: rows, rgba };
}

/** The sRGB curve (IEC 61966-2-1), back from light to a byte. */
const byteOfLight = (light: number): number =>
  255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);

const notStored: Extract<Result<never>, { ok: false }>['problem'] = {
  kind: 'photo-broken',
  sentence: 'The photo cannot be opened.',
  remedy: 'Choose it again, or take another one.',
};
