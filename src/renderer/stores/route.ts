import { z } from 'zod';
import { create } from 'zustand';
import { checkIds, phases } from '../../shared/job/records/checkIds.ts';
import { soughtSchema } from '../../shared/job/shop/sought.ts';
import { limitedNames } from '../../shared/job/records/specSheet.ts';

const build = z.string();
/** Sums a technician does beside a trial. */
const sums = ['depth', 'sides', 'preload'] as const;
export type Sum = (typeof sums)[number];

/** What is done with a gauge beside looking at it: its record changed, its lines learned, its daily check. */
const doings = ['record', 'learn', 'check'] as const;

/** Where the technician is. One value, kept in the window's history, so that back and reload do what they say. */
const routeSchema = z.discriminatedUnion('at', [
  /** The door; `comebackOf` is the build that comes back. */
  z.object({ at: z.literal('builds'), comebackOf: z.string().optional() }),
  /** All builds: sought by words, by where they stand, or by what they have in common with one. */
  z.object({ at: z.literal('shop'), alike: soughtSchema.shape.alike, which: soughtSchema.shape.which }),
  /** Two builds side by side. */
  z.object({ at: z.literal('compare'), one: build, other: build }),
  z.object({ at: z.literal('build'), build, assembly: z.string().optional() }),
  z.object({ at: z.literal('axle'), build }),
  /** `line`: the limit that was asked for. */
  z.object({ at: z.literal('limits'), build, line: z.enum(limitedNames).optional() }),
  z.object({ at: z.literal('notes'), build }),
  z.object({ at: z.literal('assemble'), build, phase: z.enum(phases) }),
  z.object({
    at: z.literal('check'),
    build,
    assembly: z.string(),
    check: z.enum(checkIds),
    /** For shims: the earlier trial whose packs are laid out to begin with. */
    shimsOf: z.string().optional(),
    /** The measurement that is taken anew, asked for elsewhere: its verdict is not shown first. */
    anew: z.string().optional(),
  }),
  /** A photo of one flank; `photo` is the stored one that lies open, `place` the place round the gear. */
  z.object({
    at: z.literal('photo'),
    build,
    assembly: z.string(),
    flank: z.enum(['drive', 'coast']),
    place: z.number().int().min(0).max(2),
    photo: z.string().optional(),
  }),
  z.object({ at: z.literal('painting'), build, assembly: z.string() }),
  z.object({ at: z.literal('cut'), build }),
  z.object({ at: z.literal('trials'), build }),
  z.object({ at: z.literal('meaning'), build, assembly: z.string() }),
  z.object({ at: z.literal('settle'), build, assembly: z.string(), check: z.enum(checkIds) }),
  z.object({ at: z.literal('plan'), build }),
  z.object({ at: z.literal('experience'), build }),
  z.object({ at: z.literal('swap'), build, swap: z.string() }),
  z.object({ at: z.literal('sums'), build, assembly: z.string(), sum: z.enum(sums) }),
  z.object({ at: z.literal('certificate'), build }),
  z.object({ at: z.literal('road-test'), build }),
  z.object({ at: z.literal('drawer'), build: z.string().optional() }),
  z.object({ at: z.literal('just-measure'), gauge: z.string().optional() }),
  z.object({
    at: z.literal('gauges'),
    gauge: z.string().optional(),
    doing: z.enum(doings).optional(),
    /** Without a gauge: the link with which the record of a new one is begun, empty for a tool that is read off. */
    begin: z.string().optional(),
  }),
]);
export type Route = z.infer<typeof routeSchema>;

const home: Route = { at: 'builds' };

const inHistory = (): Route => routeSchema.safeParse(history.state).data ?? home;

/** `before`: the last place that was not {@link isBeside beside the job}. */
export const useRoute = create<{ readonly route: Route; readonly before: Route }>()(() => ({
  route: inHistory(),
  before: home,
}));

/** What lies beside every job and is looked at for a moment: the way back from it leads to the job. */
const isBeside = ({ at }: Route): boolean => at === 'gauges' || at === 'drawer';

const arrive = (route: Route): void =>
  useRoute.setState((now) => ({ route, before: isBeside(now.route) ? now.before : now.route }));

export function go(route: Route): void {
  history.pushState(route, '');
  arrive(route);
}

/** As {@link go}, leaving no step to come back to: for screens whose question has just been answered. */
export function goInstead(route: Route): void {
  history.replaceState(route, '');
  arrive(route);
}

addEventListener('popstate', () => arrive(inHistory()));

/** Where the technician is with the gauges. */
export type GaugesRoute = Extract<Route, { at: 'gauges' }>;

/** The build the route stands in, if any. */
export const buildOf = (route: Route): string | undefined => ('build' in route ? route.build : undefined);
