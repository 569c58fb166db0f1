import type { Angle } from '../../basics/quantity.ts';
import { type AnglePoint, fitHarmonics, type HarmonicFit } from '../../basics/harmonics.ts';

/**
 * What a runout comes from: `eccentric` one lobe (off centre, or wobble on a face), `warp` two lobes, `burr` one place
 * that stands out, `mixed` when no one of them makes the most of it, `unknown` when the places cannot tell.
 */
export type RunoutShape = 'eccentric' | 'burr' | 'warp' | 'mixed' | 'unknown';

export interface ShapeFound {
  readonly shape: RunoutShape;
  /** Where the burr stands and by how much, where one was found; below its surroundings is negative. */
  readonly burr?: { readonly angle: Angle; readonly height: number };
}

/** The fewest places at which a burr, one lobe and two lobes can be told apart. */
export const fewestForShape = 6;

/**
 * Explains the points in the plainest way that leaves no more than noise: one lobe; one lobe and a burr, or two lobes;
 * all three. A burr is looked for by leaving places out and seeing how far they then stand off the rest.
 *
 * @param noise standard deviation of one point
 * @param width how many neighbouring points one burr may cover: 1 at stations, more round a finely divided turn
 */
export function shapeOf(points: readonly AnglePoint[], noise: number, width = 1): ShapeFound {
  if (points.length < fewestForShape) return { shape: 'unknown' };
  const tir = Math.max(...points.map(({ value }) => value)) - Math.min(...points.map(({ value }) => value));
  const left = Math.max(2 * noise, tolerated * tir);
  const explained = (one: Explanation | undefined): one is Explanation => one !== undefined && one.rms <= left;
  const lobe = withoutBurr(points, [1]);
  if (explained(lobe)) return named(lobe, noise);
  const either = [withBurr(points, [1], width), withoutBurr(points, [1, 2])].filter(explained);
  const best = either.sort((a, b) => a.rms - b.rms)[0] ?? withBurr(points, [1, 2], width);
  return explained(best) ? named(best, noise) : { shape: 'unknown' };
}

/** Share of TIR that real surfaces keep in finer waves than anyone sets a gear up by (our choice). */
const tolerated = 0.06;

interface Explanation {
  /** What the explanation leaves over, per degree of freedom. */
  readonly rms: number;
  readonly lobes: readonly number[];
  readonly burr?: { readonly angle: Angle; readonly height: number };
}

const explanationOf = ({ harmonics, sd, nu }: HarmonicFit): Explanation | undefined =>
  nu < 1 ? undefined : { rms: sd, lobes: harmonics.map(({ amplitude }) => 2 * amplitude) };

function withoutBurr(points: readonly AnglePoint[], orders: readonly number[]): Explanation | undefined {
  const fit = fitHarmonics(points, orders);
  return fit === undefined ? undefined : explanationOf(fit);
}

/** The best fit that leaves one place out, with how far that place stands off it. */
function withBurr(points: readonly AnglePoint[], orders: readonly number[], width: number): Explanation | undefined {
  let best: Explanation | undefined;
  for (let start = 0; start < points.length; start += 1) {
    const out = (index: number) => (index - start + points.length) % points.length < width;
    const fit = fitHarmonics(
      points.filter((_, index) => !out(index)),
      orders,
    );
    const rest = fit === undefined ? undefined : explanationOf(fit);
    if (fit === undefined || rest === undefined || (best !== undefined && rest.rms >= best.rms)) continue;
    best = {
      ...rest,
      burr: tallest(
        points.filter((_, index) => out(index)),
        fit,
      ),
    };
  }
  return best;
}

function tallest(points: readonly AnglePoint[], { mean, harmonics }: HarmonicFit) {
  const off = points.map(({ angle, value }) => {
    const rest = harmonics.reduce((sum, { order, cos, sin }) => {
      return sum + cos * Math.cos(order * angle) + sin * Math.sin(order * angle);
    }, mean);
    return { angle, height: value - rest };
  });
  return off.reduce((tall, one) => (Math.abs(one.height) > Math.abs(tall.height) ? one : tall));
}

/** The part that makes most of the runout names it, unless another makes more than half as much. */
function named({ lobes, burr }: Explanation, noise: number): ShapeFound {
  const parts = [
    { shape: 'eccentric' as const, size: lobes[0] ?? 0 },
    { shape: 'warp' as const, size: lobes[1] ?? 0 },
    { shape: 'burr' as const, size: Math.abs(burr?.height ?? 0) },
  ].sort((a, b) => b.size - a.size);
  const [first, second] = parts;
  if (first === undefined || first.size < 4 * noise) return { shape: 'unknown' };
  const shape = second !== undefined && second.size > first.size / 2 ? 'mixed' : first.shape;
  return burr === undefined ? { shape } : { shape, burr };
}
