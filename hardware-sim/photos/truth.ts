import type { Edge, Mark } from '../axle/assembled.ts';
import type { FlankFrame } from '../axle/mesh/flankFrame.ts';
import { describeMark } from '../axle/mesh/mark.ts';
import type { PaintedFlank } from '../axle/mesh/paint.ts';
import { filmLeft, type GapInFilms } from './compound.ts';

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

/** Least film left at an edge below which the eye sees a line there and not a fading. Own choice, as any eye's is. */
const LINE = 0.25;

/** The mark as it lies, its edges as the eye sees them: by how much film is left there. */
export function markBySight(flank: PaintedFlank, frame: FlankFrame, film_mm: number, feather: number): Mark {
  const gap = gapInFilms(flank, film_mm);
  const walk = Array.from({ length: 201 }, (_, n) => n / 200 - 0.5);
  const edge = (at: (along: number) => readonly [number, number]): Edge => {
    const least = Math.min(...walk.map((along) => filmLeft(gap(...at(along)), feather)));
    if (least >= 0.5) return 'clear';
    return least < LINE ? 'hard' : 'feathered';
  };
  return {
    ...describeMark(flank, frame, film_mm),
    edges: {
      toe: edge((y) => [-0.5, y]),
      heel: edge((y) => [0.5, y]),
      crown: edge((x) => [x, 0.5]),
      root: edge((x) => [x, -0.5]),
    },
  };
}
