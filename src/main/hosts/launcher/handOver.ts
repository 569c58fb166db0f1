import { WebSocket } from 'ws';
import { protocolFor } from '../loopback/guard.ts';
import { linkIn } from './doorway.ts';

/** A bench that listens lets a page in at once; one that has crashed left its doorway behind and nobody answers. */
const answers_ms = 1000;

/**
 * The link of the bench that is running on this folder's records; undefined where none is. It is believed only when it lets its own
 * token in: another program may have got the port since.
 */
export async function runningBench(folder: string): Promise<string | undefined> {
  const link = linkIn(folder);
  return link !== undefined && (await letsIn(link)) ? link : undefined;
}

function letsIn(link: string): Promise<boolean> {
  const { host, origin, hash } = new URL(link);
  const token = new URLSearchParams(hash.slice(1)).get('token') ?? '';
  return new Promise((resolve) => {
    const knock = new WebSocket(`ws://${host}/bench`, protocolFor(token), { origin, handshakeTimeout: answers_ms });
    knock.on('open', () => {
      resolve(knock.protocol === protocolFor(token));
      knock.close();
    });
    knock.on('error', () => resolve(false));
  });
}

const lookEvery_ms = 100;
const lookFor_ms = 5000;

/** The same for records that another start has just taken and whose link is still to come. */
export async function benchThatOpens(folder: string): Promise<string | undefined> {
  for (let waited_ms = 0; waited_ms < lookFor_ms; waited_ms += lookEvery_ms) {
    const link = await runningBench(folder);
    if (link !== undefined) return link;
    await new Promise((resolve) => setTimeout(resolve, lookEvery_ms));
  }
  return undefined;
}
