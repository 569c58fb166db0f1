import { PDFiumLibrary } from '@hyzyla/pdfium';
import { PNG } from 'pngjs';

/** The first page of a PDF as a PNG, so many pixels wide. */
export async function firstPagePicture(pdf: Buffer, pixelsWide: number): Promise<Buffer> {
  const [first] = await pagePictures(pdf, pixelsWide, 1);
  if (first === undefined) throw new Error('a PDF without a page');
  return first;
}

/** Its pages as PNGs, in order; all of them, or the first `most`. */
export async function pagePictures(
  pdf: Buffer,
  pixelsWide: number,
  most = Number.POSITIVE_INFINITY,
  onShare: (share: number) => void = () => undefined,
): Promise<readonly Buffer[]> {
  const library = await PDFiumLibrary.init();
  try {
    const document = await library.loadDocument(pdf);
    try {
      const pictures: Buffer[] = [];
      const count = Math.min(document.getPageCount(), most);
      for (let page = 0; page < count; page += 1) {
        const { originalWidth } = document.getPage(page).getOriginalSize();
        const scale = pixelsWide / originalWidth;
        const { data, width, height } = await document.getPage(page).render({ scale, render: 'bitmap' });
        pictures.push(png(data, width, height));
        onShare((page + 1) / count);
      }
      return pictures;
    } finally {
      document.destroy();
    }
  } finally {
    library.destroy();
  }
}

/** How many pages a PDF has. */
export async function pageCountOf(pdf: Buffer): Promise<number> {
  const library = await PDFiumLibrary.init();
  try {
    const document = await library.loadDocument(pdf);
    const count = document.getPageCount();
    document.destroy();
    return count;
  } finally {
    library.destroy();
  }
}

/** Four bytes a pixel, which the library hands over in the order of PNG. */
function png(data: Uint8Array, width: number, height: number): Buffer {
  const picture = new PNG({ width, height });
  picture.data = Buffer.from(data);
  return PNG.sync.write(picture);
}
