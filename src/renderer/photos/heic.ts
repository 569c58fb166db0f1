// The decoder is taken as the file it came as: it is under the LGPL, and a person may put another of the same name in its place.
import decoderFile from 'libheif-js/libheif-wasm/libheif-bundle.mjs?url';

/** What is used of the decoder. */
interface Decoder {
  readonly HeifDecoder: new () => { decode(bytes: Uint8Array): readonly HeicImage[] };
}

interface HeicImage {
  get_width(): number;
  get_height(): number;
  /** Fills the picture, upright, and gives it back; null where the file is damaged. */
  display(into: ImageData, given: (filled: ImageData | null) => void): void;
}

let loading: Promise<Decoder> | undefined;

/** Loaded when the first such photo comes: 2 MB that most people never need. */
function decoder(): Promise<Decoder> {
  loading ??= (import(/* @vite-ignore */ new URL(decoderFile, import.meta.url).href) as Promise<DecoderModule>).then(
    ({ default: start }) => start(),
  );
  return loading;
}

interface DecoderModule {
  readonly default: () => Promise<Decoder> | Decoder;
}

/** Whether a file begins as phones keep their photos (ISO 23008-12: brands of HEVC coded pictures). */
export const looksHeic = (head: string): boolean => /^.{4}ftyp(?:hei|hev|mif1)/su.test(head);

/** A photo as phones keep it, in memory; undefined where it is damaged or has nothing to show. */
export async function decodedHeic(bytes: Uint8Array): Promise<ImageBitmap | undefined> {
  try {
    const { HeifDecoder } = await decoder();
    const [image] = new HeifDecoder().decode(bytes);
    if (image === undefined) return undefined;
    const empty = new ImageData(image.get_width(), image.get_height());
    const filled = await new Promise<ImageData | null>((resolve) => image.display(empty, resolve));
    return filled === null ? undefined : await createImageBitmap(filled);
  } catch {
    return undefined;
  }
}
