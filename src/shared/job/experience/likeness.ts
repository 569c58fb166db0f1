import type { Shares } from '../../axle/experience/alike.ts';
import type { MakeUp } from '../../axle/makeUp.ts';
import { type Build, latest } from '../records/build.ts';

/** Words as typed are the same whatever their case and spaces. */
const plain = (words: string | undefined): string => (words ?? '').trim().toLowerCase().replaceAll(/\s+/gu, ' ');

/** Diameters and offsets read off twice may differ by this (mm). */
const asRead_mm = 1.5;

const nearly = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined || Math.abs(a - b) <= asRead_mm;

/** Gears of one drawing: counted and measured alike, and called alike where both have a name. */
function sameAxle(a: MakeUp, b: MakeUp): boolean {
  const named = plain(a.axleName) !== '' && plain(b.axleName) !== '';
  return (
    teethOf(a) === teethOf(b) &&
    nearly(a.outerDiameter_mm, b.outerDiameter_mm) &&
    nearly(a.offset_mm, b.offset_mm) &&
    (a.cut === b.cut || a.cut === 'not-known' || b.cut === 'not-known') &&
    (!named || plain(a.axleName) === plain(b.axleName))
  );
}

/** What two gears of one drawing have in common at least; empty where nothing is known. */
export const teethOf = (makeUp: MakeUp | undefined): string =>
  makeUp === undefined ? '' : `${makeUp.pinionTeeth}/${makeUp.ringTeeth} ${makeUp.driveFlank}`;

/** Whose hand brushed and read the last mark, and with which compound. */
export function handOf(build: Build): string {
  const marks = build.assemblies.flatMap((assembly) => latest(assembly, 'mark') ?? []);
  const last = marks.at(-1);
  const compound = last?.result.kind === 'mark' ? last.result.compound : undefined;
  return `${plain(last?.by ?? build.technician)} · ${plain(compound)}`;
}

/**
 * What an earlier build has in common with the one on the stand: film by technician and compound; relief by axle, maker
 * and whether the set is new; backlash for each mm by axle. All as typed.
 */
export function sharesOf(now: Build, earlier: Build): Shares {
  const [mine, its] = [now.makeUp, earlier.makeUp];
  const axle = mine !== undefined && its !== undefined && sameAxle(mine, its);
  return {
    hand: handOf(now) === handOf(earlier),
    relief: axle && mine.gearSet === its.gearSet && plain(mine.gearMaker) === plain(its.gearMaker),
    backlash: axle,
  };
}
