import type { Edge, Mark } from '../axle/assembled.ts';
import type { FlankFrame } from '../axle/mesh/flankFrame.ts';
import { describeMark } from '../axle/mesh/mark.ts';
import type { PaintedFlank } from '../axle/mesh/paint.ts';
import type { Random } from '../seeded.ts';
import { filmLeft, type GapInFilms } from './compound.ts';
import { layered } from './speckle.ts';

/**
 * The same flank as compound really shows it: a film is never quite even, so the mark's outline wanders a little. What
 * is true of the photo is true of this flank.
 */
export function roughened(flank: PaintedFlank, random: Random): PaintedFlank {
  const worn = layered(Math.floor(random.uniform(1, 2 ** 31)));
  const across = flank.heels.length;
  const gap = flank.gap.map((value, k) => {
    const [heel, crown] = [flank.heels[k % across] as number, flank.crowns[Math.floor(k / across)] as number];
    return value * (1 + 0.12 * worn(12 * heel, 5 * crown));
  });
  return { ...flank, gap };
}

/** The gap between the places of the painted flank, in films. */
export function gapInFilms({ gap, heels, crowns }: PaintedFlank, film_mm: number): GapInFilms {
  const [across, up] = [heels.length, crowns.length];
  const at = (i: number, j: number) => Math.min(1e3, (gap[j * across + i] as number) / film_mm);
  return (heel, crown) => {
    const x = Math.min(across - 1.000001, Math.max(0, (heel + 0.5) * (across - 1)));
    const y = Math.min(up - 1.000001, Math.max(0, (crown + 0.5) * (up - 1)));
    const [i, j] = [Math.floor(x), Math.floor(y)];
    const low = at(i, j) + (x - i) * (at(i + 1, j) - at(i, j));
    const high = at(i, j + 1) + (x - i) * (at(i + 1, j + 1) - at(i, j + 1));
    return low + (y - j) * (high - low);
  };
}

/** Film left at an edge below which the eye sees a line there and not a fading. Own choice, as any eye's is. */
const LINE = 0.25;
/** A touch of an edge narrower than this is not seen in a photo, mm. Own choice. */
const SEEN_MM = 0.5;

/** The mark as it lies, its edges as the eye sees them: by how much film is left there. */
export function markBySight(flank: PaintedFlank, frame: FlankFrame, film_mm: number, feather: number): Mark {
  const gap = gapInFilms(flank, film_mm);
  const edge = (length_mm: number, at: (along: number) => readonly [number, number]): Edge => {
    const steps = Math.ceil(length_mm / 0.1);
    const left = Array.from({ length: steps + 1 }, (_, n) => filmLeft(gap(...at(n / steps - 0.5)), feather));
    const least = left.toSorted((a, b) => a - b)[Math.ceil((SEEN_MM / length_mm) * steps)] as number;
    if (least >= 0.5) return 'clear';
    return least < LINE ? 'hard' : 'feathered';
  };
  const half = frame.faceWidth_mm / 2;
  return {
    ...describeMark(flank, frame, film_mm),
    edges: {
      toe: edge(frame.heightAt(-half), (y) => [-0.5, y]),
      heel: edge(frame.heightAt(half), (y) => [0.5, y]),
      crown: edge(frame.faceWidth_mm, (x) => [x, 0.5]),
      root: edge(frame.faceWidth_mm, (x) => [x, -0.5]),
    },
  };
}
