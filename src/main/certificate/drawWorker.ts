// A thread of its own for drawing certificates: it takes most of a second, in which the bench goes on journaling.
import { parentPort, workerData } from 'node:worker_threads';
import type { DrawAsked, WordFromDrawing } from './drawWords.ts';
import { drawnPdf } from './pdf.ts';
import { pageCountOf, pagePictures } from './picture.ts';

const tell = (word: WordFromDrawing): void => parentPort?.postMessage(word);

async function draw({ issue, look, signature, pictures }: DrawAsked): Promise<void> {
  const part = pictures === undefined ? 1 : 0.6;
  const pdf = await drawnPdf(issue, look, signature, (share) => tell({ share: share * part }));
  const drawn =
    pictures === undefined
      ? []
      : await pagePictures(pdf, pictures.pixelsWide, pictures.most, (share) =>
          tell({ share: part + share * (1 - part) }),
        );
  tell({ drawn: { pdf, pages: pictures === undefined ? 0 : await pageCountOf(pdf), pictures: drawn } });
}

await draw(workerData as DrawAsked);
