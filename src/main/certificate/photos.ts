import type { PhotoBlock, PhotosBlock } from '../../shared/presentation/certificate/page.ts';
import { paragraph } from './flow.ts';
import { scale } from './letters.ts';
import type { Paper, Strip } from './paper.ts';

/** The JPEG of a photo by its hash, where the bench has it. */
export type PhotoOf = (sha256: string) => Uint8Array | undefined;

const across = 3;
const gap = 12;
/** Height of a photo's room as a share of its width: cameras take 4 : 3, lying. */
const share = 0.75;

const widthOf = (paper: Pick<Paper, 'width'>): number => (paper.width - gap * (across - 1)) / across;

export const photoRowHeight = (paper: Paper, { photos }: PhotosBlock): number => {
  const width = widthOf(paper);
  const lines = photos.map(({ caption }) => paper.wrap(caption, scale.quiet, width).length);
  return width * share + 2 + Math.max(0, ...lines) * scale.quiet.line;
};

/** Rows of photos, each whole with its words; as they are stored, and none larger than its room. */
export function photosToPaper(paper: Paper, block: PhotosBlock, strip: Strip, photoOf: PhotoOf): void {
  const width = widthOf(paper);
  for (let first = 0; first < block.photos.length; first += across) {
    const row = block.photos.slice(first, first + across);
    paper.need(photoRowHeight(paper, { ...block, photos: row }));
    const top = paper.y;
    let lowest = top;
    row.forEach((photo, index) => {
      const x = strip.x + index * (width + gap);
      paper.y = top;
      photoToPaper(paper, photo, { x, width }, photoOf(photo.sha256));
      lowest = Math.max(lowest, paper.y);
    });
    paper.y = lowest + 8;
  }
}

function photoToPaper(paper: Paper, photo: PhotoBlock, { x, width }: Strip, jpeg: Uint8Array | undefined): void {
  const room = width * share;
  const scaled = Math.min(width / photo.width, room / photo.height);
  const [wide, high] = [photo.width * scaled, photo.height * scaled];
  const at = { x, y: paper.y + room - high };
  if (jpeg === undefined) {
    paper.y += room - 2 * scale.quiet.line;
    paragraph(paper, 'Not kept by this bench.', { letters: scale.quiet, strip: { x, width } });
    paper.y = at.y + high + 2;
  } else {
    const figure = paper.pdf.struct(
      'Figure',
      {
        alt: `Photo. ${photo.caption}`,
        bbox: [at.x, at.y, at.x + wide, at.y + high],
      } as PDFKit.Mixins.StructureElementOptions,
      () => paper.pdf.image(Buffer.from(jpeg), at.x, at.y, { width: wide, height: high }),
    );
    paper.root.add(figure);
    paper.y = at.y + high + 2;
  }
  paragraph(paper, photo.caption, { letters: scale.quiet, strip: { x, width } });
}
