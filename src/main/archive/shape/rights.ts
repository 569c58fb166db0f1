import type { Step } from './step.ts';

const sent = ['build', 'entry', 'stretch', 'photo', 'certificate'] as const;

const asItself = sent
  .map(
    (table) => `
    ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY;
    CREATE POLICY read_all ON ${table} FOR SELECT TO axlewright_bench USING (true);
    CREATE POLICY as_itself ON ${table} FOR INSERT TO axlewright_bench WITH CHECK (speaks_as(sent_by));`,
  )
  .join('\n');

/**
 * A bench may read everything and add as itself. It may change nothing and remove nothing: no right for it is ever given, and
 * a table's own rule refuses what no right was asked for.
 */
export const rights: Step = {
  name: 'what a bench may do',
  sql: `
    GRANT USAGE ON SCHEMA axlewright TO axlewright_bench;
    GRANT SELECT ON ALL TABLES IN SCHEMA axlewright TO axlewright_bench;
    GRANT INSERT ON bench, bench_called, ${sent.join(', ')} TO axlewright_bench;
    REVOKE EXECUTE ON ALL FUNCTIONS IN SCHEMA axlewright FROM PUBLIC;
    GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA axlewright TO axlewright_bench;
    ${asItself}
    ALTER TABLE bench ENABLE ROW LEVEL SECURITY;
    CREATE POLICY read_all ON bench FOR SELECT TO axlewright_bench USING (true);
    CREATE POLICY as_itself ON bench FOR INSERT TO axlewright_bench WITH CHECK (role = session_user);
    ALTER TABLE bench_called ENABLE ROW LEVEL SECURITY;
    CREATE POLICY read_all ON bench_called FOR SELECT TO axlewright_bench USING (true);
    CREATE POLICY as_itself ON bench_called FOR INSERT TO axlewright_bench WITH CHECK (speaks_as(bench));
  `,
};
