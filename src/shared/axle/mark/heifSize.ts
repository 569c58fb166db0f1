/**
 * How large a HEIF or AVIF picture says it is: the boxes of its head (ISO/IEC 14496-12), down to the property `ispe`
 * (ISO/IEC 23008-12); from memory. The head may lie before or behind the pictures.
 */
interface Box {
  readonly name: string;
  /** Of what is in it. */
  readonly from: number;
  readonly to: number;
}

/** A head has some ten boxes beside each other; a file of millions is none. */
const mostBoxes = 10_000;

/** The boxes beside each other between two places; one that says it is longer than there is room ends the list. */
function boxes(bytes: Uint8Array, from: number, to: number): readonly Box[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found: Box[] = [];
  for (let at = from; at + 8 <= to && found.length < mostBoxes;) {
    const short = view.getUint32(at);
    const isLong = short === 1 && at + 16 <= to;
    const length = isLong ? Number(view.getBigUint64(at + 8)) : short;
    const head = isLong ? 16 : 8;
    // A length of nothing stands for the rest.
    const end = length === 0 ? to : at + length;
    if (end > to || end < at + head) break;
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    found.push({ name, from: at + head, to: end });
    at = end;
  }
  return found;
}

/** Into boxes within boxes: what is in `meta` begins behind four bytes of version and flags. */
const within = (bytes: Uint8Array, outer: readonly Box[], name: string, skipped = 0): readonly Box[] =>
  outer.filter((box) => box.name === name).flatMap(({ from, to }) => boxes(bytes, from + skipped, to));

/** Tiles and thumbnails have sizes of their own, so the largest counts; undefined where none is said. */
export function heifSize(bytes: Uint8Array): { readonly width: number; readonly height: number } | undefined {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const meta = within(bytes, boxes(bytes, 0, bytes.length), 'meta', 4);
  const properties = within(bytes, within(bytes, meta, 'iprp'), 'ipco');
  const sizes = properties
    .filter(({ name, from, to }) => name === 'ispe' && to - from >= 12)
    .map(({ from }) => ({ width: view.getUint32(from + 4), height: view.getUint32(from + 8) }))
    .filter(({ width, height }) => width > 0 && height > 0);
  return sizes.toSorted((a, b) => b.width * b.height - a.width * a.height)[0];
}
