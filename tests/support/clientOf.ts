import { WebSocket } from 'ws';
import { createClient } from '../../src/shared/contract/client.ts';

/** A client of a bench that runs in a process of its own, by its link alone, as a page has it. */
export async function clientOf(link: string) {
  const { host, origin, hash } = new URL(link);
  const token = new URLSearchParams(hash.slice(1)).get('token') ?? '';
  const socket = new WebSocket(`ws://${host}/bench`, `axlewright.${token}`, { origin });
  await new Promise((resolve, reject) => socket.once('open', resolve).once('error', reject));
  const client = createClient({
    send: (text) => socket.send(text),
    onText: (listener) => void socket.on('message', (data: Buffer) => listener(data.toString('utf8'))),
    onPresence: (listener) => {
      listener(true);
      return () => undefined;
    },
    close: () => socket.close(),
  });
  return { client, close: () => socket.terminate() };
}
