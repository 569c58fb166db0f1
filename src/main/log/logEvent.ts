/**
 * One thing that happened, as plain fields. Only codes, counts, ids and places of the program stand in it: no words that a
 * person wrote, so no name of a customer or a technician.
 */
export interface LogEvent {
  /** What happened, e.g. `opened`, `gauge`, `defect`. */
  readonly kind: string;
  readonly [field: string]: string | number | boolean | readonly string[] | undefined;
}
