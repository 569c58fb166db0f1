import type { WebSocket } from 'ws';
import type { QuestionName } from '../../src/shared/contract/contract.ts';
import { questions } from '../../src/shared/contract/contract.ts';
import { type MessageOptions, messageMaker } from '../support/messages.ts';
import type { BenchUnderTest } from './benchUnderTest.ts';

/** What became of the hostile messages. */
export interface FuzzCount {
  messages: number;
  taken: number;
  refused: number;
  /** Messages that begin to look like one of ours and were never answered. */
  unanswered: number;
}

export interface Fuzzing {
  readonly count: FuzzCount;
  readonly faults: string[];
  stop(): Promise<void>;
}

/** Asked seldom: they listen to ports for minutes, watch folders of this machine, or draw or write a file each. */
const seldom: readonly QuestionName[] = [
  'gauges.learn',
  'photos.choose-folder',
  'bench.report',
  'certificate.issue',
  'certificate.pictures',
  'exports.make',
  'backups.choose',
  'backups.found',
];
/** A person may end the bench from its screens; a fuzz that did would try nothing more. */
const never: readonly QuestionName[] = ['bench.end'];
const often = (Object.keys(questions) as QuestionName[]).filter((name) => ![...seldom, ...never].includes(name));
const together = 40;

/** Sends messages made of the contract's schemas over a WebSocket of its own until it is stopped, and waits for the answers. */
export async function startFuzz(
  bench: BenchUnderTest,
  random: () => number,
  known: MessageOptions['known'],
): Promise<Fuzzing> {
  const socket = await bench.socket();
  const makers = {
    often: messageMaker({ random, names: often, known }),
    seldom: messageMaker({ random, names: seldom, known }),
  };
  const count: FuzzCount = { messages: 0, taken: 0, refused: 0, unanswered: 0 };
  const faults: string[] = [];
  const waiting = new Map<number, string>();
  const ending = new AbortController();
  socket.on('message', (data: Buffer) => settle(data.toString('utf8'), waiting, count, faults));
  const run = (async () => {
    for (let id = 1; !ending.signal.aborted && socket.readyState === socket.OPEN; id += 1) {
      const text = (random() < 0.0005 ? makers.seldom : makers.often).next(id);
      count.messages += 1;
      if (expectsAnswer(text, id)) waiting.set(id, text);
      socket.send(text);
      if (id % together === 0) await drained(socket, waiting);
    }
  })();
  return {
    count,
    faults,
    async stop() {
      ending.abort();
      await run;
      // Learning listens as long as it was told to; everything else is answered at once.
      await until(() => [...waiting.values()].every(isLong) || socket.readyState !== socket.OPEN, 60_000);
      if (socket.readyState === socket.OPEN) {
        const late = [...waiting.values()].filter((text) => !isLong(text));
        count.unanswered += late.length;
        if (late[0] !== undefined) faults.push(`never answered: ${late[0].slice(0, 200)}`);
      }
      socket.terminate();
    },
  };
}

const isLong = (text: string): boolean => text.includes('gauges.learn') || text.includes('bench.hand');

/** Whoever can be answered is answered: a whole JSON object with a number that is an id. */
function expectsAnswer(text: string, id: number): boolean {
  try {
    return (JSON.parse(text) as { id?: unknown }).id === id;
  } catch {
    return false;
  }
}

function settle(text: string, waiting: Map<number, string>, count: FuzzCount, faults: string[]): void {
  const back = JSON.parse(text) as {
    id?: number;
    result?: { ok: boolean; problem?: { kind: string; sentence: string } };
  };
  if (back.id === undefined || back.result === undefined) return;
  const asked = waiting.get(back.id);
  waiting.delete(back.id);
  if (back.result.ok) count.taken += 1;
  else count.refused += 1;
  if (back.result.problem?.kind === 'defect') faults.push(`a defect at ${asked?.slice(0, 400) ?? ''}`);
  if (/\n\s+at /u.test(back.result.problem?.sentence ?? ''))
    faults.push(`a stack in the answer to ${asked?.slice(0, 200) ?? ''}`);
}

/** Until few are unanswered, so that what is measured is the bench and not a heap of messages. */
const drained = (socket: WebSocket, waiting: ReadonlyMap<number, string>): Promise<void> =>
  until(() => waiting.size < 2 * together || socket.readyState !== socket.OPEN, 20_000);

async function until(isSo: () => boolean, most_ms: number): Promise<void> {
  const began = performance.now();
  while (!isSo() && performance.now() - began < most_ms) await new Promise((resolve) => void setTimeout(resolve, 2));
}
