import { setTimeout as after } from 'node:timers/promises';
import type { Problem } from '../../shared/basics/result.ts';
import { onWay, type Reach } from './connect.ts';
import { wait_ms } from './patience.ts';
import { sendAll, type Sender, type Sent } from './send.ts';

interface GoingOn {
  readonly signal: AbortSignal;
  readonly reach: Reach;
  /** What keeps things from being sent: told once, and again only where it is another. */
  readonly say: (problem: Problem) => void;
  /** What was sent, whenever something was. */
  readonly onSent: (sent: Sent) => void;
}

const lookEvery_ms = 1000;

/** Sends whatever is written, as it is written, until it is ended; where the archive is away it waits and tries again. */
export async function sendOn(sender: Sender, { signal, reach, say, onSent }: GoingOn): Promise<void> {
  let failures = 0;
  let last = Number.NaN;
  let said = '';
  while (!signal.aborted) {
    const upto = lastLine(sender);
    const problem = upto === last ? undefined : await problemOf(sender, { signal, reach, onSent });
    if (problem === undefined) {
      [failures, last, said] = [0, upto, ''];
    } else {
      failures += 1;
      if (problem.sentence !== said) say(problem);
      said = problem.sentence;
    }
    const rest = problem === undefined ? lookEvery_ms : wait_ms(failures, Math.random());
    await after(rest, undefined, { signal }).catch(() => undefined);
  }
}

async function problemOf(
  sender: Sender,
  { signal, reach, onSent }: Pick<GoingOn, 'signal' | 'reach' | 'onSent'>,
): Promise<Problem | undefined> {
  const sent = await onWay(reach, (way, onTaken) => sendAll(way, sender, { signal, onTaken }));
  if (!sent.ok) return sent.problem;
  const { entries, readings, photos, refused } = sent.value;
  if (entries + readings + photos + refused.length > 0) onSent(sent.value);
  return undefined;
}

const lastLine = ({ database }: Sender): number =>
  database.sql.prepare<[], number>('SELECT coalesce(max(line), 0) FROM notebook_entry').pluck().get() ?? 0;
