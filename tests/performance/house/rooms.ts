import type { SourceFile } from './sources.ts';

/** The rooms of one folder, on floors: each room stands above all rooms it knows. */
export interface Rooms {
  /** From the top floor down. Rooms in a circle share a floor. */
  readonly floors: readonly (readonly string[])[];
  /** How many imports lead from one room to another. */
  readonly arrows: ReadonlyMap<string, number>;
  /** Arrows between rooms that also know each other the other way round. */
  readonly backUp: readonly string[];
}

/** Lays the rooms of `folder` (its direct subfolders; a file of its own is a room too) on floors. */
export function roomsOf(files: readonly SourceFile[], folder: string): Rooms {
  const inside = files.filter(({ path }) => path.startsWith(`${folder}/`));
  const roomOf = (path: string): string => path.slice(folder.length + 1).split('/')[0] ?? '';
  const rooms = [...new Set(inside.map(({ path }) => roomOf(path)))];
  const arrows = new Map<string, number>();
  for (const { path, imports } of inside) {
    for (const { from } of imports) {
      if (!from.startsWith(`${folder}/`) || roomOf(from) === roomOf(path)) continue;
      const arrow = `${roomOf(path)} -> ${roomOf(from)}`;
      arrows.set(arrow, (arrows.get(arrow) ?? 0) + 1);
    }
  }
  const below = new Map(rooms.map((room) => [room, rooms.filter((other) => arrows.has(`${room} -> ${other}`))]));
  const backUp = [...arrows.keys()].filter((arrow) => isSlighter(arrow, arrows));
  const heights = new Map(rooms.map((room) => [room, heightOf(room, below, backUp, new Set())]));
  const top = Math.max(...heights.values());
  const floors = Array.from({ length: top }, (_, index) =>
    rooms.filter((room) => heights.get(room) === top - index).toSorted(),
  );
  return { floors, arrows, backUp };
}

/** Of two rooms that know each other, the arrow with fewer imports is the one that runs back up. */
function isSlighter(arrow: string, arrows: ReadonlyMap<string, number>): boolean {
  const [from = '', to = ''] = arrow.split(' -> ');
  const back = arrows.get(`${to} -> ${from}`);
  const there = arrows.get(arrow) ?? 0;
  return back !== undefined && (there < back || (there === back && from < to));
}

function heightOf(
  room: string,
  below: ReadonlyMap<string, readonly string[]>,
  backUp: readonly string[],
  above: ReadonlySet<string>,
): number {
  const next = (below.get(room) ?? []).filter(
    (other) => !above.has(other) && other !== room && !backUp.includes(`${room} -> ${other}`),
  );
  return 1 + Math.max(0, ...next.map((other) => heightOf(other, below, backUp, new Set([...above, room]))));
}

/** Groups of files that know each other round about, types included (Tarjan's strongly connected components). */
export function circlesOf(files: readonly SourceFile[]): readonly (readonly string[])[] {
  const edges = new Map(files.map(({ path, imports }) => [path, imports.map(({ from }) => from)]));
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const stack: string[] = [];
  const circles: (readonly string[])[] = [];
  const visit = (file: string): number => {
    const place = order.size;
    order.set(file, place);
    low.set(file, place);
    stack.push(file);
    for (const next of edges.get(file) ?? []) {
      if (!edges.has(next)) continue;
      const reached = order.has(next) ? (stack.includes(next) ? (order.get(next) ?? place) : place) : visit(next);
      low.set(file, Math.min(low.get(file) ?? place, reached));
    }
    if (low.get(file) === place) {
      const circle = stack.splice(stack.indexOf(file));
      if (circle.length > 1) circles.push(circle.toSorted());
    }
    return low.get(file) ?? place;
  };
  for (const file of edges.keys()) if (!order.has(file)) visit(file);
  return circles;
}
