import { randomUUID } from 'node:crypto';
import { fail, none, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { type Address, readAddress } from '../../archive/address.ts';
import { readChoice } from '../../archive/choice.ts';
import { onWay, type Reach, type Way } from '../../archive/connect.ts';
import { fetchHome } from '../../archive/fetchHome.ts';
import { findBuilds } from '../../archive/find.ts';
import { migrate } from '../../archive/migrate.ts';
import { type Notes, openNotes } from '../../archive/notes.ts';
import { passwordFor } from '../../archive/secret.ts';
import { sendAll, senderOf } from '../../archive/send.ts';
import { sendOn } from '../../archive/sendOn.ts';
import { waitingBehind } from '../../archive/waiting.ts';
import { systemClock } from '../../clock.ts';
import { endBetweenSteps, interruption } from '../../interruption.ts';
import { openDatabase } from '../../store/database.ts';
import { openIdentity, readIdentity } from '../../store/identity.ts';
import { numberOption } from '../options.ts';
import { folderOf, openRecords, type Records } from '../records.ts';
import { type ExitCode, type Given, needed, noAnswer, type Output, wrongUse } from '../verb.ts';

interface Asked {
  readonly given: Given;
  readonly words: string;
  readonly output: Output;
}

/** What can be done with an archive from the command line, by its word. */
export const archiveDeeds: Readonly<Record<string, (asked: Asked) => Promise<ExitCode>>> = {
  migrate: async ({ given, output }) => {
    const reach = reachOf(given, undefined);
    if (!reach.ok) return wrongUse(output, reach.problem);
    return answered(output, await onWay(reach.value, (way) => migrate(way)));
  },
  send: (asked) => onRecords(asked, async ({ reach, records, notes }) => send(asked, { reach, records, notes })),
  status: (asked) =>
    onRecords(asked, async ({ reach, records, notes }) => {
      const there = await onWay(reach, async (way) => ok(await nameOf(way)));
      if (!there.ok) asked.output.say(`${there.problem.sentence} ${there.problem.remedy}`);
      return answered(asked.output, ok(statusOf(records, notes, there.ok ? there.value : undefined)));
    }),
  find: async ({ given, words, output }) => {
    const limit = numberOption(given, 'limit', { least: 1, most: 10_000, whole: true });
    if (!limit.ok) return wrongUse(output, limit.problem);
    const reach = reachFrom(given);
    if (!reach.ok) return wrongUse(output, reach.problem);
    const found = await onWay(reach.value, async (way) => ok(await findBuilds(way, words, limit.value ?? 50)));
    if (!found.ok) return noAnswer(output, found.problem);
    if (found.value.near) output.say(`No build has "${words}"; these come near.`);
    else if (found.value.builds.length === 0) output.say(`No build in the archive has "${words}".`);
    output.answer(found.value.builds.map(({ summary, bench }) => ({ ...summary, bench })));
    return 0;
  },
  fetch: async ({ given, output }) => {
    const build = needed(given, 'build');
    if (!build.ok) return wrongUse(output, build.problem);
    const reach = reachFrom(given);
    if (!reach.ok) return wrongUse(output, reach.problem);
    endBetweenSteps();
    const database = openDatabase(folderOf(given), systemClock);
    if (!database.ok) return noAnswer(output, database.problem);
    try {
      const identity = openIdentity(database.value, randomUUID);
      if (!identity.ok) return noAnswer(output, identity.problem);
      const home = { database: database.value, identity: identity.value };
      return answered(output, await onWay(reach.value, (way) => fetchHome(way, home, build.value)));
    } finally {
      database.value.close();
    }
  },
};

function answered(output: Output, result: Result<unknown>): ExitCode {
  if (!result.ok) return noAnswer(output, result.problem);
  output.answer(result.value);
  return 0;
}

interface AtWork {
  readonly reach: Reach;
  readonly records: Records;
  readonly notes: Notes;
}

/** With the records of a folder, read beside a bench that may be at work in them. */
async function onRecords({ given, output }: Asked, work: (at: AtWork) => Promise<ExitCode>): Promise<ExitCode> {
  const records = openRecords(folderOf(given));
  if (!records.ok) return noAnswer(output, records.problem);
  try {
    const reach = reachOf(given, records.value);
    if (!reach.ok) return wrongUse(output, reach.problem);
    const notes = openNotes(folderOf(given));
    try {
      return await work({ reach: reach.value, records: records.value, notes });
    } finally {
      notes.close();
    }
  } finally {
    records.value.close();
  }
}

/** Where the archive is: --to, or what is chosen in the records of the folder, which need not be there. */
function reachFrom(given: Given): Result<Reach> {
  const records = given.text('to') === undefined ? openRecords(folderOf(given)) : undefined;
  try {
    return reachOf(given, records?.ok === true ? records.value : undefined);
  } finally {
    if (records?.ok === true) records.value.close();
  }
}

function reachOf(given: Given, records: Records | undefined): Result<Reach> {
  const chosen = records === undefined ? {} : readChoice(records.database);
  const text = given.text('to') ?? chosen.address;
  if (text === undefined) return fail(noAddress);
  const address = readAddress(text, '--to');
  if (!address.ok) return address;
  const password = passwordFor(address.value, { folder: folderOf(given) });
  if (!password.ok) return password;
  return ok({ address: address.value, password: password.value, ...authorityFor(address.value, text, chosen) });
}

/** The authority that was named for the chosen archive, where that is the one. */
const authorityFor = (
  _: Address,
  text: string,
  { address, authority }: { address?: string | undefined; authority?: string | undefined },
) => (address === text && authority !== undefined ? { authority } : {});

async function send({ given, output }: Asked, { reach, records: { database }, notes }: AtWork): Promise<ExitCode> {
  const identity = readIdentity(database);
  if (!identity.ok) return noAnswer(output, identity.problem);
  const sender = senderOf(database, identity.value, notes);
  const { signal, forget } = interruption();
  try {
    if (given.flag('once'))
      return answered(output, await onWay(reach, (way, onTaken) => sendAll(way, sender, { signal, onTaken })));
    const say = ({ sentence, remedy }: Problem): void => output.say(`${sentence} ${remedy}`);
    await sendOn(sender, { signal, reach, say, onSent: (sent) => output.answer(sent) });
    return 0;
  } finally {
    forget();
  }
}

async function nameOf(way: Way): Promise<string> {
  const [row] = await way<{ id: string }[]>`SELECT id FROM archive`;
  return row?.id ?? '';
}

function statusOf({ database }: Records, notes: Notes, there: string | undefined) {
  const archive = there ?? notes.latest() ?? '';
  const { line, at } = notes.read(archive);
  return {
    reachable: there !== undefined,
    waiting: waitingBehind(database, line),
    lastSent: at === '' ? none('nothing sent yet') : at,
    refused: notes.refusals(archive),
    beside: notes.beside(archive),
  };
}

const noAddress: Problem = {
  kind: 'option-missing',
  field: '--to',
  sentence: '--to is needed: no archive is chosen in the settings of these records.',
  remedy: 'Add --to postgres://role@computer:5432/database.',
};
