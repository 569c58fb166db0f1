import type { Change, Followed } from './followed.ts';

const share = (hits: number, of: number): string => (of === 0 ? '  –' : ((100 * hits) / of).toFixed(0).padStart(3));
const count = <T>(values: readonly T[], of: (value: T) => boolean): number => values.filter(of).length;

/** Right as found / after at most one / two / three changes, in percent. */
export const rightRow = (followed: readonly Followed[]): string =>
  [0, 1, 2, 3]
    .map((n) =>
      share(
        count(followed, ({ rightAfter }) => rightAfter[n] === true),
        followed.length,
      ),
    )
    .join(' ');

/** A mean in hundredths with its standard error. */
export function hundredths(values: readonly number[]): string {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return `${(100 * mean).toFixed(1)} ± ${((100 * Math.sqrt(squares)) / values.length).toFixed(1)}`;
}

/** How many more in a hundred one way has right than another after at most one, two, three changes, paired axle by axle. */
export function pairedRow(one: readonly Followed[], other: readonly Followed[]): string {
  const right = (followed: Followed | undefined, n: number): number => (followed?.rightAfter[n] === true ? 1 : 0);
  return [1, 2, 3].map((n) => hundredths(one.map((each, k) => right(each, n) - right(other[k], n)))).join('; ');
}

/** Times a part was touched, for each axle. */
export function teardowns(followed: readonly Followed[]): string {
  const changes = followed.flatMap(({ changes: made }) => made);
  const each = (of: (change: Change) => boolean): string => (count(changes, of) / followed.length).toFixed(2);
  return `pinion ${each(({ pinionMoved }) => pinionMoved)} side ${each(({ ringMoved }) => ringMoved)}`;
}

/**
 * Places whose true backlash lies outside its window: those of a first change, made when nothing is known yet of what a
 * millimetre makes on this axle, those of later ones, and those left standing. Room given to gears that bind is none.
 */
export function windowRow(followed: readonly Followed[]): string {
  const [first, later] = [[], []] as [number[], number[]];
  for (const { changes } of followed) {
    const planned = changes.filter(({ givesRoom }) => !givesRoom);
    planned.forEach(({ outside }, index) => (index === 0 ? first : later).push(outside));
  }
  const left = followed.flatMap(({ left: stood }) => (stood === undefined ? [] : [stood.outside]));
  const told = (places: readonly number[]): string => `${count(places, (outside) => outside > 0)}/${places.length}`;
  const worst = [...first, ...later, ...left].reduce((a, b) => Math.max(a, b), 0);
  return `${told(first)} ${told(later)}, standing ${told(left)} (worst ${worst.toFixed(3)})`;
}

export function coverRow(followed: readonly Followed[]): string {
  const changes = followed.flatMap(({ changes: made }) => made);
  const part = (of: (change: Change) => boolean | undefined): string => {
    const told = changes.map(of).filter((value) => value !== undefined);
    return share(count(told, Boolean), told.length);
  };
  return `${part(({ covered }) => covered.crown)} ${part(({ covered }) => covered.heel)} ${part(({ covered }) => covered.backlash)}`;
}

/** Of axles right as found: share told to come apart, share called suspect; of all, share suspect. */
export function goodSets(followed: readonly Followed[]): string {
  const right = followed.filter(({ rightAfter }) => rightAfter[0] === true);
  const apart = count(right, ({ changes }) => changes.length > 0);
  const suspect = count(followed, ({ suspectAt }) => suspectAt !== undefined);
  const alarms = (asked: Followed['alarm']): number => count(followed, ({ alarm }) => alarm === asked);
  const leftWrong = count(followed, ({ left }) => left !== undefined && !left.right);
  return `right ones taken apart ${apart}/${right.length}, left wrong ${leftWrong}, suspect ${suspect}/${followed.length}, asked to look ${alarms('check')} or to paint again ${alarms('repaint')}`;
}

const bins = [0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.001] as const;

/** Chances told beside how often they were kept: "told 0.73 kept 0.70 of 50" for each bin. */
export function calibration(followed: readonly Followed[]): string {
  const told = followed.flatMap(({ changes, left }) => [...changes, ...(left === undefined ? [] : [left])]);
  const rows = bins.slice(0, -1).map((low, index) => {
    const among = told.filter(({ chance }) => chance !== undefined && chance >= low && chance < (bins[index + 1] ?? 2));
    if (among.length === 0) return undefined;
    const mean = among.reduce((sum, { chance }) => sum + (chance ?? 0), 0) / among.length;
    return `${(100 * mean).toFixed(0)}→${((100 * count(among, ({ right }) => right)) / among.length).toFixed(0)} (${among.length})`;
  });
  return rows.filter((row) => row !== undefined).join('  ');
}
