// The thread in which rows of the journal wait for the disk, so that the gauges do not.
import { workerData } from 'node:worker_threads';
import Sqlite from 'better-sqlite3';
import { makeDurable } from '../../store/durable.ts';
import { codeOf } from '../../store/databaseProblem.ts';
import { rowWriter } from '../writeRows.ts';
import { begunSchema, type WordFromThread, type WordToThread } from './words.ts';

/** So long the bench may be in a transaction of its own (a bundle of a million rows is taken in in one), ms. */
const timeout = 30_000;

const { file, port, said } = begunSchema.parse(workerData);
const counter = new Int32Array(said);

const say = (word: WordFromThread): void => {
  port.postMessage(word);
  Atomics.add(counter, 0, 1);
  Atomics.notify(counter, 0);
};

const sql = new Sqlite(file, { fileMustExist: true, timeout });
makeDurable(sql);
const writer = rowWriter(sql);

function written(rows: Exclude<WordToThread, 'end'>): WordFromThread {
  try {
    writer.write(rows);
    return { kind: 'written' };
  } catch (error) {
    return { kind: 'refused', code: codeOf(error), message: error instanceof Error ? error.message : String(error) };
  }
}

port.on('message', (word: WordToThread) => {
  if (word !== 'end') return say(written(word));
  sql.close();
  say({ kind: 'closed' });
  return port.close();
});
say({ kind: 'open' });
