import { createHash } from 'node:crypto';
import type { Answer, BenchClient } from '../../src/shared/contract/contract.ts';
import type { Result } from '../../src/shared/basics/result.ts';
import { readNotebook } from '../../src/shared/job/records/build.ts';

const by = 'Soak';

/** Rows that the bench has given out from its disk: they must be there, unchanged, for ever. */
interface SafeRows {
  readonly gauge: string;
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly sha256: string;
}

/** Everything the bench has acknowledged, and whether it still holds. */
export interface Ledger {
  readonly entries: Map<string, string[]>;
  readonly rows: SafeRows[];
  readonly faults: string[];
  count(): { readonly entries: number; readonly rows: number };
}

export function openLedger(): Ledger {
  const entries = new Map<string, string[]>();
  const rows: SafeRows[] = [];
  return {
    entries,
    rows,
    faults: [],
    count: () => ({
      entries: [...entries.values()].reduce((sum, ids) => sum + ids.length, 0),
      rows: rows.reduce((sum, { count }) => sum + count, 0),
    }),
  };
}

/** Enters the gauges, or plugs them in again: their ids are told by the bench. */
export async function plugIn(client: BenchClient, links: readonly string[]): Promise<readonly string[]> {
  const known = valueOf(await client.ask('gauges.list', {}));
  const ids: string[] = [];
  for (const [n, link] of links.entries()) {
    const serial = `STAND-${n}`;
    const id = known.find((gauge) => gauge.serial === serial)?.id;
    const gauge = {
      label: `Stand ${n}`,
      kind: 'indicator',
      serial,
      resolution: { value: 0.001, unit: 'mm' },
      link,
    } as const;
    const saved = valueOf(
      await client.ask('gauges.save', { gauge: { ...gauge, ...(id === undefined ? {} : { id }) } }),
    );
    await client.ask('gauges.plug-in', { gauge: saved.id });
    ids.push(saved.id);
  }
  return ids;
}

/** One turn of a technician's work: a build is begun or written in, and rows are taken as safe. Refusals are allowed, loss is not. */
export async function workOnce(
  client: BenchClient,
  ledger: Ledger,
  turn: number,
  gauges: readonly string[],
): Promise<void> {
  const build = [...ledger.entries.keys()].at(-1);
  if (build === undefined || turn % 40 === 0) {
    const started = await client.ask('builds.start', { title: `Soak ${turn}`, technician: by });
    if (started.ok)
      ledger.entries.set(
        started.value.id,
        started.value.entries.map(({ id }) => id),
      );
    return;
  }
  const deed = turn % 7 === 0 ? undefined : ({ kind: 'noted', topic: 'note', text: `Turn ${turn}` } as const);
  const written =
    deed === undefined
      ? await client.ask('builds.undo', { build, by })
      : await client.ask('builds.write', { build, by, deed });
  if (written.ok)
    ledger.entries.set(
      build,
      written.value.entries.map(({ id }) => id),
    );
  const gauge = gauges[turn % gauges.length];
  if (gauge !== undefined) await takeRows(client, ledger, gauge);
}

async function takeRows(client: BenchClient, ledger: Ledger, gauge: string): Promise<void> {
  const from = (ledger.rows.findLast((one) => one.gauge === gauge)?.to ?? 0) + 1;
  const heard = await client.ask('gauges.heard', { gauge, from, to: 2 ** 50 });
  const seqs = heard.ok ? heard.value.map(({ seq }) => seq) : [];
  const to = seqs.at(-1);
  if (!heard.ok || to === undefined) return;
  ledger.faults.push(...outOfOrder(heard.value, gauge));
  ledger.rows.push({ gauge, from, to, count: seqs.length, sha256: hashOf(heard.value) });
}

type Heard = Answer<'gauges.heard'>;

const hashOf = (rows: Heard): string => createHash('sha256').update(JSON.stringify(rows)).digest('hex');

/** Numbers rise by what the gauge counts: a number that comes again or goes back was doubled or bent on the way. */
function outOfOrder(rows: Heard, gauge: string): readonly string[] {
  let last = { seq: -1, value: Number.NEGATIVE_INFINITY };
  const faults: string[] = [];
  for (const row of rows) {
    if (!('value' in row)) continue;
    if (row.seq <= last.seq || row.value <= last.value)
      faults.push(`gauge ${gauge}: row ${row.seq} (${row.value}) after row ${last.seq} (${last.value})`);
    last = row;
  }
  return faults.slice(0, 3);
}

/** What is asked for again at every start, so that a start of a bench of many hours does not wait for it. */
const newest = { builds: 40, stretches: 20 };

/** The ids of the whole list: the builds of the fuzz stand in it too, and fill pages. */
async function allListed(client: BenchClient): Promise<ReadonlySet<string>> {
  const ids = new Set<string>();
  for (let before: string | undefined; ;) {
    const page = valueOf(await client.ask('builds.list', before === undefined ? {} : { before }));
    for (const { id } of page) ids.add(id);
    before = page.at(-1)?.id;
    if (before === undefined) return ids;
  }
}

/** Asks once more for everything that was acknowledged; for the newest builds and stretches only unless `all`. */
export async function verify(client: BenchClient, ledger: Ledger, all: boolean): Promise<void> {
  const listed = await allListed(client);
  for (const [build, ids] of [...ledger.entries].slice(all ? 0 : -newest.builds)) {
    const notebook = await client.ask('builds.read', { build });
    const there = notebook.ok ? notebook.value.entries.map(({ id }) => id) : [];
    if (!listed.has(build) || ids.some((id, n) => there[n] !== id))
      ledger.faults.push(`build ${build}: entries are missing or changed`);
    else if (there.length > ids.length + 1)
      ledger.faults.push(`build ${build}: ${there.length - ids.length} entries that nobody was told of`);
    if (notebook.ok) readNotebook(build, notebook.value.entries);
    // One entry may have been written and not answered any more.
    ledger.entries.set(build, there);
  }
  for (const { gauge, from, to, sha256 } of ledger.rows.slice(all ? 0 : -newest.stretches)) {
    const heard = await client.ask('gauges.heard', { gauge, from, to });
    if (!heard.ok || hashOf(heard.value) !== sha256)
      ledger.faults.push(`gauge ${gauge}: rows ${from} to ${to} are missing or changed`);
  }
}

export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(`${result.problem.kind}: ${result.problem.sentence}`);
  return result.value;
}
