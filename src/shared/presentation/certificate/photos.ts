import type { CertificateContent } from './content.ts';
import { type Block, heading } from './page.ts';

/** The hour alone: the day of each assembly stands above. */
const clockText = (at: string): string => at.slice(11, 16);

/** So many have room on one page; all of them stand with everything. */
const mostUsually = 12;

/** The photos of painted teeth, the newest where there are more than a page holds. */
export function photoBlocks({ photos }: Pick<CertificateContent, 'photos'>, everything: boolean): readonly Block[] {
  if (photos.length === 0) return [];
  const shown = everything ? photos : photos.slice(-mostUsually);
  const count = shown.length === photos.length ? '' : `The newest ${shown.length} of ${photos.length}. `;
  return [
    heading(
      3,
      'Photos',
      `${count}The data name each by the hash of its bytes, which begins with the signs beneath it.`,
    ),
    {
      kind: 'photos',
      photos: shown.map(({ sha256, width, height, assembly, at }) => ({
        sha256,
        width,
        height,
        caption: `${assembly}, ${clockText(at)} · ${sha256.slice(0, 8)}`,
      })),
    },
  ];
}
