/** One step of the archive's shape. What has shipped is never edited, moved or removed: add one. */
export interface Step {
  readonly name: string;
  readonly sql: string;
  /** Set where a bench that does not know this step must not write any more. */
  readonly mustBeKnown?: true;
}
