// A thread of its own for a backup: copying and looking through take seconds, in which the bench goes on journaling.
import { parentPort, workerData } from 'node:worker_threads';
import { makeBackup } from './make.ts';
import { askedSchema, type WordFromThread } from './threadWords.ts';

const tell = (word: WordFromThread): void => parentPort?.postMessage(word);
const ending = new AbortController();
// Whatever the bench says to this thread means: stop.
parentPort?.once('message', () => ending.abort());

const made = await makeBackup({
  ...askedSchema.parse(workerData),
  signal: ending.signal,
  onProgress: (share) => tell({ share }),
});
tell({ made });
parentPort?.close();
