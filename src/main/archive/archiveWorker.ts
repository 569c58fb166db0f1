// A thread of its own for the archive: what is sent is packed and hashed here, and the bench goes on journaling.
import { parentPort, workerData } from 'node:worker_threads';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { systemClock } from '../clock.ts';
import { openDatabase } from '../store/database.ts';
import { readIdentity } from '../store/identity.ts';
import { readAddress } from './address.ts';
import { onWay, type Reach } from './connect.ts';
import { type Courier, openCourier } from './courier.ts';
import type { Home } from './fetchHome.ts';
import { greet } from './greet.ts';
import { openNotes } from './notes.ts';
import { passwordFor } from './secret.ts';
import { type Sender, senderOf } from './send.ts';
import { askedSchema, type ThreadAsked, type WordFromThread, wordToThreadSchema } from './threadWords.ts';

const tell = (word: WordFromThread): void => parentPort?.postMessage(word);

function reachOf({ address: text, authority, password, opened, folder }: ThreadAsked): Result<Reach> {
  const address = readAddress(text, 'address');
  if (!address.ok) return address;
  const known = password === undefined ? passwordFor(address.value, { folder, opened }) : ok(password);
  if (!known.ok) return known;
  return ok({ address: address.value, password: known.value, ...(authority === undefined ? {} : { authority }) });
}

/** The records, to be written into from this thread. */
function openHome(folder: string): Result<Home> {
  const database = openDatabase(folder, systemClock, { as: 'thread' });
  if (!database.ok) return database;
  const identity = readIdentity(database.value);
  if (identity.ok) return ok({ database: database.value, identity: identity.value });
  database.value.close();
  return identity;
}

interface Open {
  readonly sender: Sender;
  readonly close: () => void;
}

function openSender(folder: string): Result<Open> {
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return database;
  const identity = readIdentity(database.value);
  if (!identity.ok) {
    database.value.close();
    return identity;
  }
  const notes = openNotes(folder);
  const close = (): void => {
    notes.close();
    database.value.close();
  };
  return ok({ sender: senderOf(database.value, identity.value, notes), close });
}

async function tested(reach: Reach, sender: Sender): Promise<Result<string>> {
  return onWay(reach, async (way) => {
    const greeted = await greet(way, sender.bench());
    return greeted.ok ? ok(greeted.value.archive) : fail(greeted.problem);
  });
}

async function take(courier: Courier, message: unknown): Promise<void> {
  const word = wordToThreadSchema.parse(message);
  if ('poke' in word) courier.poke();
  else if ('find' in word) tell({ ask: word.ask, found: await courier.find(word.find, word.limit) });
  else if ('fetch' in word) tell({ ask: word.ask, fetched: await courier.fetch(word.fetch) });
}

async function work(): Promise<void> {
  const asked = askedSchema.parse(workerData);
  const opened = openSender(asked.folder);
  if (!opened.ok) return tell({ tested: opened });
  const { sender, close } = opened.value;
  const reach = reachOf(asked);
  if (!reach.ok || asked.onlyTest) {
    tell({ tested: reach.ok ? await tested(reach.value, sender) : reach });
    return close();
  }
  // Opened with the first build that is brought: opening looks the whole file through.
  let home: Home | undefined;
  const homeOnce = (): Result<Home> => {
    const opened = home === undefined ? openHome(asked.folder) : ok(home);
    home = opened.ok ? opened.value : undefined;
    return opened;
  };
  const courier = openCourier({
    reach: reach.value,
    sender,
    home: homeOnce,
    onStanding: (standing) => tell({ standing }),
    onNews: (news) => tell({ news }),
  });
  if (!courier.ok) {
    tell({ tested: courier });
    return close();
  }
  parentPort?.on('message', (message) => {
    const isEnd = typeof message === 'object' && message !== null && 'end' in message;
    if (isEnd) {
      parentPort?.close();
      void courier.value.close().then(() => {
        home?.database.close();
        close();
      });
    } else void take(courier.value, message);
  });
  return undefined;
}

await work();
