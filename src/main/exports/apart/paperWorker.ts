// A thread of its own for papers and exports: gathering readings and drawing take seconds, in which the bench goes on journaling.
import { parentPort, workerData } from 'node:worker_threads';
import { makePaper } from './make.ts';
import type { PaperAsked, WordFromPaper } from './words.ts';

const tell = (word: WordFromPaper): void => parentPort?.postMessage(word);

tell({ made: await makePaper(workerData as PaperAsked, (share) => tell({ share })) });
