import type { Step } from './step.ts';

/**
 * Words of one or two letters have an index of their own: every letter and every two in a row of a heading. Looking through all
 * headings took 145 ms among 100,000. The function says how dear it is, so that no plan works it out for every line.
 */
export const shortPieces: Step = {
  name: 'an index of one and two letters in a row',
  sql: `
    CREATE FUNCTION short_pieces(heading text) RETURNS text[] LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE COST 10000 AS $$
      SELECT coalesce(array_agg(DISTINCT piece), '{}') FROM (
        SELECT unnest(ARRAY[letter, letter || lead(letter) OVER (ORDER BY place)]) AS piece
        FROM regexp_split_to_table(heading, '') WITH ORDINALITY AS letters (letter, place)) AS pieces
      WHERE piece IS NOT NULL AND strpos(piece, ' ') = 0
    $$;
    REVOKE EXECUTE ON FUNCTION short_pieces FROM PUBLIC;
    GRANT EXECUTE ON FUNCTION short_pieces TO axlewright_bench;
    CREATE INDEX summary_short_pieces ON summary USING gin (short_pieces(heading));
    DROP INDEX summary_short;
  `,
};
