import { backlashWorlds } from '../../hardware-sim/worlds/backlash/worlds.ts';
import { runoutWorlds } from '../../hardware-sim/worlds/runout/worlds.ts';
import { torqueWorlds } from '../../hardware-sim/worlds/torque/worlds.ts';
import type { World } from '../../hardware-sim/worlds/world.ts';
import { measureScene, type SceneMeasured } from './worlds/measured.ts';
import { row, targets } from './worlds/table.ts';
import { tally } from './worlds/tally.ts';

/**
 * Worlds that do not share the measuring's beliefs: of the numbers given, how many hold their own U95, how many are wrong
 * without a word, and what is refused. `npm run bench worlds runout` prints those of one kind, a further word those whose
 * name has it, a number how many scenes of each. Every figure is printed; none is asserted here.
 */
const usualScenes = 400;

export const takesWords = true;

export default async function bench(print: (line: string) => void, words: readonly string[] = []): Promise<void> {
  const scenes = Number(words.find((word) => /^\d+$/u.test(word)) ?? usualScenes);
  const wanted = words.filter((word) => !/^\d+$/u.test(word));
  print(
    `wanted: covered ≥ ${targets.covered_percent} %, beyond 3 U95 without a flag ${targets.wrongSilent}, given ≥ ${targets.givenWhereHonest_percent} % where an honest technician lives (h); figures in mm and N·m`,
  );
  for (const worlds of [runoutWorlds, backlashWorlds, torqueWorlds]) {
    const chosen = worlds.filter((world) => isWanted(world, wanted));
    if (chosen.length > 0) print(`\n${chosen[0]?.kind ?? ''}`);
    for (const world of chosen) {
      const measured = Array.from({ length: scenes }, (_, seed) => measureScene(world.kind, world.make(seed)));
      for (const part of byFigure(measured))
        print(row({ ...world, name: `${world.name}${part.of}` }, tally(part.scenes)));
    }
  }
}

/** A row for each sort of figure: the running torque of a pull may be right where its breakaway is not. */
function byFigure(scenes: readonly SceneMeasured[]): readonly { of: string; scenes: readonly SceneMeasured[] }[] {
  const kinds = [...new Set(scenes.flatMap(({ figures }) => figures.map(({ of }) => of)))];
  if (kinds.length < 2) return [{ of: '', scenes }];
  return kinds.map((of) => ({
    of: `, ${of}`,
    scenes: scenes.map((scene) => ({ ...scene, figures: scene.figures.filter((figure) => figure.of === of) })),
  }));
}

const isWanted = ({ kind, name }: World, words: readonly string[]): boolean =>
  words.every((word) => kind === word || name.includes(word));

if (import.meta.main) await bench((line) => process.stdout.write(`${line}\n`), process.argv.slice(2));
