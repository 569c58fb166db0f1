import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { once } from 'node:events';
import postgres from 'postgres';

/** Where Debian puts PostgreSQL; undefined where there is none, and tests are skipped and say so. */
export const postgresBin = (): string | undefined => {
  const all = '/usr/lib/postgresql';
  if (!existsSync(all)) return undefined;
  const found = readdirSync(all).toSorted((a, b) => Number(b) - Number(a));
  return found.map((version) => join(all, version, 'bin')).find((bin) => existsSync(join(bin, 'initdb')));
};

/** A PostgreSQL of its own in a temporary folder, on a free port of this machine; default settings, fsync on. */
export interface ArchiveServer {
  readonly port: number;
  readonly folder: string;
  /** The address for a role. */
  to(role: string): string;
  /** As its administrator; a database may be named. */
  psql(sql: string, database?: string): string;
  start(): void;
  stop(how: 'fast' | 'immediate'): void;
  run(program: string, ...words: readonly string[]): string;
  end(): void;
}

export const password = 'not a secret';
export const benchRole = (number: number): string => `bench_${number}`;

interface Wanted {
  /** Lines for postgresql.conf. */
  readonly settings?: readonly string[];
  /** Lines for pg_hba.conf, in the place of those that let this machine in by password. */
  readonly doors?: readonly string[];
  readonly benches?: number;
}

/** Root may not run PostgreSQL: then it runs as the user that Debian made for it. */
function postgresUser(): { readonly uid: number; readonly gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const id = (which: string): number => Number(execFileSync('id', [which, 'postgres'], { encoding: 'utf8' }));
  return { uid: id('-u'), gid: id('-g') };
}

/** Makes one, with an owner, a database `archive` and so many roles for benches. Call `end` when done. */
export async function archiveServer({ settings = [], doors, benches = 3 }: Wanted = {}): Promise<ArchiveServer> {
  const bin = postgresBin();
  if (bin === undefined) throw new Error('there is no PostgreSQL here');
  const user = postgresUser();
  const folder = mkdtempSync(join(tmpdir(), 'axlewright-archive-'));
  const data = join(folder, 'data');
  mkdirSync(data);
  chmodSync(folder, 0o755);
  if (user !== undefined) for (const each of [folder, data]) chownSync(each, user.uid, user.gid);
  const run = (program: string, ...words: readonly string[]): string => {
    const env = { ...process.env, PGPASSWORD: password };
    // A server that is started holds the streams it was given: it gets none.
    const ran = spawnSync(join(bin, program), words, {
      ...user,
      env,
      cwd: folder,
      encoding: 'utf8',
      stdio: program === 'pg_ctl' ? 'ignore' : 'pipe',
    });
    if (ran.status !== 0) throw new Error(`${program} ended with ${ran.status}: ${ran.stderr}`);
    return ran.stdout;
  };
  const secret = join(folder, 'secret');
  writeFileSync(secret, password);
  chmodSync(secret, 0o644);
  run(
    'initdb',
    '-D',
    data,
    '-A',
    'scram-sha-256',
    `--pwfile=${secret}`,
    '-U',
    'keeper',
    '-E',
    'UTF8',
    '--locale=C.UTF-8',
    '-N',
  );
  const port = await freePort();
  const own = [`port = ${port}`, "listen_addresses = '127.0.0.1'", "unix_socket_directories = ''", ...settings];
  writeFileSync(join(data, 'postgresql.auto.conf'), own.map((line) => `${line}\n`).join(''));
  writeFileSync(
    join(data, 'pg_hba.conf'),
    (doors ?? ['host all all 127.0.0.1/32 scram-sha-256']).map((line) => `${line}\n`).join(''),
  );
  if (user !== undefined)
    for (const each of ['postgresql.auto.conf', 'pg_hba.conf']) chownSync(join(data, each), user.uid, user.gid);
  const start = (): void => void run('pg_ctl', '-D', data, '-w', '-s', '-l', join(folder, 'log'), 'start');
  const stop = (how: 'fast' | 'immediate'): void => void run('pg_ctl', '-D', data, '-w', '-s', '-m', how, 'stop');
  const psql = (sql: string, database = 'archive'): string =>
    run(
      'psql',
      '-X',
      '-q',
      '-t',
      '-A',
      '-v',
      'ON_ERROR_STOP=1',
      '-h',
      '127.0.0.1',
      '-p',
      String(port),
      '-U',
      'keeper',
      '-d',
      database,
      '-c',
      sql,
    ).trim();
  start();
  psql(`CREATE ROLE archive_owner LOGIN CREATEROLE PASSWORD '${password}'`, 'postgres');
  psql('CREATE DATABASE archive OWNER archive_owner', 'postgres');
  psql('CREATE ROLE axlewright_bench NOLOGIN', 'postgres');
  const roles = Array.from({ length: benches }, (_, n) => benchRole(n + 1));
  psql(
    roles.map((role) => `CREATE ROLE ${role} LOGIN PASSWORD '${password}' IN ROLE axlewright_bench;`).join('\n'),
    'postgres',
  );
  return {
    port,
    folder,
    to: (role) => `postgres://${role}@127.0.0.1:${port}/archive`,
    psql,
    start,
    stop,
    run,
    end() {
      try {
        stop('immediate');
      } catch {
        // A test has stopped it already.
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  };
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  server.close();
  return typeof address === 'object' && address !== null ? address.port : 0;
}

/** Straight to the database, as a role. */
export const asRole = (server: ArchiveServer, role: string): postgres.Sql =>
  postgres({
    host: '127.0.0.1',
    port: server.port,
    user: role,
    password,
    database: 'archive',
    max: 1,
    onnotice: () => undefined,
    connection: { search_path: 'axlewright, public' },
  });
