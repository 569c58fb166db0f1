/**
 * Expected failures as values. An exception is for a defect in the program; everything the world can
 * do to us (a missing port, a full disk, a limit without a unit) is a Problem that a person can act on.
 */
export interface Problem<Kind extends string = string> {
  /** Short stable word for code and tests, e.g. `port-busy`. */
  readonly kind: Kind;
  /** One plain sentence for the technician: what happened, with the number in it. */
  readonly sentence: string;
  /** What to do about it. */
  readonly remedy: string;
  /** The field, option or line that is wrong, where there is one. */
  readonly field?: string | undefined;
}

export type Result<T, Kind extends string = string> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: Problem<Kind> };

export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

export const fail = <Kind extends string>(
  problem: Problem<Kind>,
): { readonly ok: false; readonly problem: Problem<Kind> } => ({
  ok: false,
  problem,
});

/** "No number" is a value of its own, with its reason; it is never null, NaN or 0. */
export interface NoNumber<Reason extends string = string> {
  readonly none: Reason;
}

export type OrNone<T, Reason extends string = string> = T | NoNumber<Reason>;

export const none = <Reason extends string>(reason: Reason): NoNumber<Reason> => ({ none: reason });

export const isNone = (value: unknown): value is NoNumber =>
  typeof value === 'object' && value !== null && 'none' in value;
