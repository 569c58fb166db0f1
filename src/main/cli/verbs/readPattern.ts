import { type Depth, depthOfCut } from '../../../shared/axle/mark/flankMap.ts';
import type { FlankCorners, Pixel } from '../../../shared/axle/mark/photo.ts';
import { readPattern as readMark } from '../../../shared/axle/mark/readPattern.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { readPhoto } from '../photoFile.ts';
import { told } from '../told.ts';
import { needed, noAnswer, type Verb, wrongUse } from '../verb.ts';

/** The mark on one flank of a photo, its four corners given. */
export const readPattern: Verb = {
  name: 'read-pattern',
  ...told['read-pattern'],
  options: { photo: { type: 'string' }, corners: { type: 'string' }, cut: { type: 'string' } },
  async run(given, output) {
    const path = needed(given, 'photo');
    if (!path.ok) return wrongUse(output, path.problem);
    const written = needed(given, 'corners');
    if (!written.ok) return wrongUse(output, written.problem);
    const corners = cornersFrom(written.value);
    if (!corners.ok) return wrongUse(output, corners.problem);
    const depth = depthFrom(given.text('cut'));
    if (!depth.ok) return wrongUse(output, depth.problem);
    const photo = readPhoto(path.value, '--photo');
    if (!photo.ok) return wrongUse(output, photo.problem);
    const outside = firstOutside(corners.value, photo.value);
    if (outside !== undefined) return wrongUse(output, outside);
    const reading = readMark(photo.value, corners.value, { depth: depth.value });
    if (!reading.ok && reading.problem.kind === 'corners')
      return wrongUse(output, { ...reading.problem, field: '--corners' });
    if (!reading.ok) return noAnswer(output, reading.problem);
    output.answer({ ...reading.value.mark, warnings: reading.value.warnings });
    return 0;
  },
};

/** What the cut says of the tooth's depth; nothing where it is not given. */
function depthFrom(cut: string | undefined): Result<Depth | undefined> {
  if (cut === undefined || cut === 'not-known') return ok(undefined);
  if (cut === 'face-milled' || cut === 'face-hobbed') return ok(depthOfCut(cut));
  return fail({
    kind: 'wrong-cut',
    field: '--cut',
    sentence: `--cut: "${cut}" is not a cut.`,
    remedy: 'Write face-milled or face-hobbed, or leave it out where it is not known.',
  });
}

const number = /^-?\d+(?:\.\d+)?$/u;

/** Four pairs "x,y", parted by spaces. */
function cornersFrom(written: string): Result<FlankCorners> {
  const pairs = written.trim().split(/\s+/u);
  const points = pairs.map((pair) => pair.split(','));
  const bad = points.findIndex((pair) => pair.length !== 2 || !pair.every((one) => number.test(one)));
  if (bad >= 0) return fail(badCorner(bad + 1, `"${pairs[bad] ?? ''}" is not a pair of pixels`));
  const [a, b, c, d, ...more] = points.map((pair): Pixel => [Number(pair[0]), Number(pair[1])]);
  if (a === undefined || b === undefined || c === undefined || d === undefined || more.length > 0) {
    return fail(badCorner(Math.min(5, pairs.length + 1), `${pairs.length} corners are given, not four`));
  }
  return ok([a, b, c, d]);
}

function firstOutside(
  corners: FlankCorners,
  photo: { readonly width: number; readonly height: number },
): Problem | undefined {
  const bad = corners.findIndex(([x, y]) => x < 0 || y < 0 || x > photo.width - 1 || y > photo.height - 1);
  if (bad < 0) return undefined;
  return badCorner(bad + 1, `it lies outside the photo, which is ${photo.width} by ${photo.height} pixels`);
}

const badCorner = (which: number, why: string): Problem => ({
  kind: 'wrong-corners',
  field: '--corners',
  sentence: `--corners, corner ${which}: ${why}.`,
  remedy: 'Write toe-root, toe-crown, heel-crown and heel-root as "x,y x,y x,y x,y".',
});
