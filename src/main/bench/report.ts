import { arch, cpus, freemem, loadavg, platform, release, totalmem, uptime } from 'node:os';
import { readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { databaseProblem } from '../store/databaseProblem.ts';
import { folderInside, writeWhole } from '../writeWhole.ts';
import type { OpenBench } from './parts.ts';

/**
 * Writes a report into the data folder, for whoever is to find out what went wrong: version, machine, ports, gauges and the
 * last events. It holds no names of people, no titles and no notes, and is sent nowhere.
 */
export async function saveReport(
  bench: OpenBench,
): Promise<Result<{ readonly file: string; readonly folder: string }>> {
  const at = new Date(bench.clock.wall_ms()).toISOString();
  const file = `report-${at.replaceAll(/[:.]/gu, '-')}.json`;
  const report = JSON.stringify(await reportOf(bench, at), undefined, 2);
  try {
    const folder = folderInside(bench.options.folder, 'reports');
    writeWhole(join(folder, file), report);
    forgetOldest(folder);
    return ok({ file, folder });
  } catch (error) {
    return fail(databaseProblem(error, join(bench.options.folder, 'reports', file)));
  }
}

/** So many stay: a page that asks again and again does not fill the disk. */
const mostReports = 20;

function forgetOldest(folder: string): void {
  const reports = readdirSync(folder).filter((name) => /^report-[\dTZ-]+\.json$/u.test(name));
  for (const name of reports.toSorted().slice(0, -mostReports)) rmSync(join(folder, name), { force: true });
}

async function reportOf({ options, log, warnings, gauges, gaugeRecords, journal, database }: OpenBench, at: string) {
  const rows = (table: string): number => Number(database.sql.prepare(`SELECT count(*) FROM ${table}`).pluck().get());
  return {
    kind: 'axlewright-report',
    version: 1,
    at,
    program: { version: options.version, node: process.version, simulated: options.simulation !== undefined },
    machine: {
      system: `${platform()} ${release()} ${arch()}`,
      processors: cpus().length,
      memory_MB: Math.round(totalmem() / 1e6),
      free_MB: Math.round(freemem() / 1e6),
      used_MB: Math.round(process.memoryUsage.rss() / 1e6),
      load: loadavg(),
      up_s: Math.round(uptime()),
      benchUp_s: Math.round(process.uptime()),
    },
    records: {
      entries: rows('notebook_entry'),
      photos: rows('photo'),
      journal: journal.last(),
      safe: journal.durable(),
    },
    // Their sentences may hold a title; their kinds never do.
    warnings: warnings.list().map(({ kind }) => kind),
    ports: (await gauges.ports()).map(({ link, usb }) => ({
      link,
      usb: usb && { vendor: usb.vendor, product: usb.product },
    })),
    gauges: gaugeRecords.list().map(({ id, kind, resolution, link }) => ({ id, kind, resolution, link })),
    states: gauges.states().map(({ gauge, state, readings, unreadable, rate_per_s, problem }) => ({
      gauge,
      state,
      readings,
      unreadable,
      rate_per_s,
      problem: problem?.kind,
    })),
    events: log.recent(),
  };
}
