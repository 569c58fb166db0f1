/** A stretch of places on a flank (fractions of it), lower end first. */
export type Stretch = readonly [low: number, high: number];

/** Where a mark's centre is wanted. */
export interface Box {
  readonly heel: Stretch;
  readonly crown: Stretch;
}

/**
 * Where a new set's drive mark is right (docs/command-line.md): in height the middle, along the face the middle or
 * somewhat to the toe. One place for the plan and for what is said of marks.
 */
export const newSetRight: Box = { heel: [-0.22, 0.12], crown: [-0.12, 0.12] };

/** How near a used set's marks have to come to their own, where reading can tell that much. */
export const usedSetNear = { heel: 0.1, crown: 0.08 } as const;
