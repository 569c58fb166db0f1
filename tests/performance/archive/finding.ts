import { openWay, type Reach } from '../../../src/main/archive/connect.ts';
import { findBuilds } from '../../../src/main/archive/find.ts';
import type { ArchiveServer } from '../../support/archive/server.ts';
import { valueOf } from '../../support/bench/open.ts';
import { spreadOf } from './times.ts';

interface Finding {
  readonly server: ArchiveServer;
  readonly among: number;
  readonly reach: Reach;
}

/** What is looked for, and whether it is misspelt: then nothing has it, and the nearest are looked for after that. */
interface Asked {
  readonly what: string;
  readonly words: string;
  readonly misspelt?: true;
}

/** A shop's builds: one line as it was sent, with names, numbers and a word of its own in each. */
const alikeShop = {
  name: 'a shop of like builds',
  heading: "name || ' axle job ' || number",
  words: "heading || E'\\n' || sent || E'\\n' || name || E'\\n' || number || E'\\n' || md5(number::text)",
  asked: [
    { what: 'newest, no words', words: '' },
    { what: 'a job number', words: '7311' },
    { what: 'a common word', words: 'axle' },
    { what: 'two words', words: 'axle lindgren' },
    { what: 'a common word and a rare one', words: 'axle 7311' },
    { what: 'part of a word', words: 'indgr' },
    { what: 'two letters', words: 'fr' },
    { what: 'two letters nobody has in a row', words: '7z' },
    { what: 'a word nobody wrote', words: 'zzyzx' },
    { what: 'a sign that means anything elsewhere', words: '%' },
    { what: 'two hundred letters', words: 'lindgren'.repeat(25) },
    { what: 'misspelt', words: 'lindgern rear', misspelt: true },
  ],
} as const;

/**
 * A chain of unlike shops: a quarter of the headings is all the same, a quarter long, a quarter in other scripts, a quarter has
 * nothing in common with any other; forty words of a large vocabulary in each, few of them often; one person wrote the first third.
 */
const unlikeShops = {
  name: 'a chain of unlike shops',
  heading: `CASE number % 4
      WHEN 0 THEN 'rear axle of the grey van, second set'
      WHEN 1 THEN 'hoist ' || left(own, 170)
      WHEN 2 THEN (ARRAY['задний мост', 'οπίσθιος άξονας', '後車軸デフ調整', 'المحور الخلفي', 'เพลาหลัง'])[1 + number / 4 % 5] || ' ' || number
      ELSE md5(number::text) END || CASE WHEN number < edge THEN ' olden' ELSE ' later' END`,
  words: "heading || E'\\n' || own",
  asked: [
    { what: 'a common word', words: 'hoist' },
    { what: 'a word that a third has, long ago', words: 'olden' },
    { what: 'that and a rare one', words: 'olden 後車軸' },
    { what: 'two letters of another script', words: '車軸' },
    { what: 'three letters of another script', words: 'мост' },
    { what: 'two letters that a third has, long ago', words: 'ld' },
    { what: 'a word nobody wrote', words: 'zzyzx' },
    { what: 'two hundred letters', words: 'hoist'.repeat(40) },
    { what: 'misspelt, of a heading that a quarter has', words: 'gery van', misspelt: true },
    { what: 'misspelt in another script', words: 'задинй мост', misspelt: true },
  ],
} as const;

/** Lines of the list made by the server from one that was sent, in two populations with nothing in common. */
export async function finding({ server, among, reach }: Finding, print: (line: string) => void): Promise<void> {
  server.psql(`SET search_path = axlewright, public;
    INSERT INTO build (id, sent_by) SELECT 'made-' || n, 1 FROM generate_series(1, ${among}) AS n;
    CREATE TABLE public.one AS SELECT record, words FROM summary ORDER BY build LIMIT 1;
    CREATE TABLE public.index_of AS SELECT indexname, indexdef FROM pg_indexes WHERE tablename = 'summary' AND indexdef LIKE '%gin%'`);
  const way = valueOf(openWay(reach));
  for (const { name, heading, words, asked } of [alikeShop, unlikeShops]) {
    populate({ server, among, heading, words });
    const size = Number(server.psql("SELECT pg_total_relation_size('axlewright.summary')"));
    print(`${name}, ${among} builds: a line of the list with its indexes ${(size / among / 1000).toFixed(1)} kB`);
    for (const each of asked) print(`  ${await looked(way, each)}`);
  }
  await way.end();
}

interface Population {
  readonly server: ArchiveServer;
  readonly among: number;
  /** SQL for them, out of number, name, sent, own and edge. */
  readonly heading: string;
  readonly words: string;
}

/** Indexes are made after the lines: among them it takes ten times as long. */
function populate({ server, among, heading, words }: Population): void {
  server.psql(`SET search_path = axlewright, public; SELECT setseed(0.5); SET maintenance_work_mem = '256MB';
    DO $$ DECLARE each text; BEGIN FOR each IN SELECT indexname FROM public.index_of LOOP EXECUTE 'DROP INDEX ' || each; END LOOP; END $$;
    TRUNCATE summary;
    INSERT INTO summary (build, entries, sent_by, record, heading, words)
    SELECT build, 40, 1, jsonb_set(record, '{id}', to_jsonb(id)), heading, ${words}
    FROM (SELECT number AS build, id, substr(id, 6)::int AS number, ${among} / 3 AS edge FROM build WHERE id LIKE 'made-%'
        ORDER BY number) AS builds,
      (SELECT record, words AS sent FROM public.one) AS one,
      LATERAL (SELECT string_agg(substr(md5((5000 * power(random(), 3))::int::text), 1, 3 + n % 7), ' ') AS own
        FROM generate_series(1, 40) AS n WHERE number > 0) AS vocabulary,
      LATERAL (SELECT (ARRAY['rear','front','centre','spare'])[1 + number % 4] || ' ' ||
        (ARRAY['lindgren','moreau','kaya','okafor','novak','silva','brandt','ito'])[1 + number / 7 % 8] || substr(md5(number::text), 1, 2) AS name) AS made, LATERAL (SELECT ${heading} AS heading) AS titled;
    DO $$ DECLARE each text; BEGIN FOR each IN SELECT indexdef FROM public.index_of LOOP EXECUTE each; END LOOP; END $$`);
  server.psql('VACUUM (ANALYZE)');
}

async function looked(way: Parameters<typeof findBuilds>[0], { what, words, misspelt }: Asked): Promise<string> {
  const took: number[] = [];
  let count = 0;
  for (let n = 0; n < 15; n += 1) {
    const began = performance.now();
    count = (await findBuilds(way, words, 50)).builds.length;
    took.push(performance.now() - began);
  }
  return `${what}: ${count} builds, ${spreadOf(took)}, wanted ${misspelt === undefined ? 50 : 150}`;
}
