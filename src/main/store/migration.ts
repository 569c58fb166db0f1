/** One change of the database's shape. */
export interface Migration {
  readonly name: string;
  readonly sql: string;
}
