import { z } from 'zod';

/** The two flanks of a ring-gear tooth, named by their shape; which of them drives is the build's affair. */
export const flankNames = ['convex', 'concave'] as const;
export type Flank = (typeof flankNames)[number];

/** How a mark meets an edge of the flank: not at all, fading out towards it, or with a sharp line on it. */
const edgeContacts = ['clear', 'feathered', 'hard'] as const;
export type EdgeContact = (typeof edgeContacts)[number];

/** The four edges of a flank, in the order a technician walks round it. */
export const edgeNames = ['toe', 'heel', 'crown', 'root'] as const;
export type Edge = (typeof edgeNames)[number];

const place = z.number().min(-0.5).max(0.5);
const extent = z.number().min(0).max(1);
const contact = z.enum(edgeContacts);

/** How the mark was made: what a technician knows of it, nothing guessed. */
const markMadeSchema = z.object({
  film_um: z.number().positive().optional(),
  drag_Nm: z.number().min(0).optional(),
  turns: z.number().positive().optional(),
  bearings: z.enum(['new', 'used', 'set-up']).optional(),
});

/**
 * What the compound shows on one flank, as plain fractions of that flank (docs/signs-and-units.md, "Mark").
 * `heel` runs along the face from its middle, `crown` up the flank from the middle of its height there.
 * `U95` is the expanded uncertainty of the place; it is absent, never 0, where nobody knows it.
 * The centre of a mark that reaches an edge is a bound, not a centre: see {@link isBound}.
 */
export const markSchema = z.object({
  heel: place,
  crown: place,
  length: extent,
  height: extent,
  slant_deg: z.number().min(-90).max(90),
  edges: z.object({ toe: contact, heel: contact, crown: contact, root: contact }),
  U95: z.object({ heel: z.number().min(0), crown: z.number().min(0) }).optional(),
  gearAngle_deg: z.number().optional(),
  made: markMadeSchema.optional(),
});

export type Mark = Readonly<z.infer<typeof markSchema>>;

/** Whether the mark's centre is only a bound in this direction, because an edge of the flank cut the mark off. */
export function isBound(mark: Mark, along: 'heel' | 'crown'): boolean {
  const [low, high]: readonly [Edge, Edge] = along === 'heel' ? ['toe', 'heel'] : ['root', 'crown'];
  return mark.edges[low] !== 'clear' || mark.edges[high] !== 'clear';
}
