import { type Assembly, assemblyName, type Build } from '../../shared/job/records/build.ts';
import type { Phase } from '../../shared/job/records/checkIds.ts';
import { isDescribed, markJudgement, type Next, nextStep, readinessOf } from '../../shared/job/checks/readiness.ts';
import { completeAssemblies } from '../../shared/job/planning/seen.ts';
import { go, type Route } from '../stores/route.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import { Chip } from './Chip.tsx';
import { EarlierChip } from './EarlierChip.tsx';
import { useFolded } from './useFolded.ts';

interface PhasePathProps {
  readonly build: Build;
  readonly shown: Assembly | undefined;
  readonly route: Route;
}

/**
 * The way of a build: as found, the trials, the final assembly; what is not there yet can be opened. What it began with
 * keeps to the left edge and what comes last to the right one; between them the trials grow: no stop moves when another opens.
 */
export function PhasePath({ build, shown, route }: PhasePathProps) {
  const has = (phase: Phase): boolean => build.assemblies.some((assembly) => assembly.phase === phase);
  const to = (phase: Phase, words: string) => <OpenChip build={build} route={route} phase={phase} words={words} />;
  // With nothing left but the certificate there is nothing left to plan or to try.
  const going = !closed.has(nextStep(build).do);
  const { way, last } = ended(build.assemblies);
  // The last one always stands for itself.
  const most = Math.max(0, build.assemblies.length - 1);
  const [row, folded] = useFolded(most, `${build.assemblies.map(({ id }) => id).join()} ${going} ${has('final')}`);
  const shownHere = 'assembly' in route || route.at === 'build' ? shown?.id : undefined;
  const earlier = way.slice(0, folded);
  const chip = (assembly: Assembly) => (
    <AssemblyChip key={assembly.id} build={build} assembly={assembly} here={assembly.id === shownHere} />
  );
  return (
    <div className="job__row job__row--way" ref={row}>
      {has('as-found') || has('trial') ? undefined : to('as-found', 'As found')}
      {earlier.length === 0 ? undefined : (
        <EarlierChip
          assemblies={earlier}
          here={earlier.find(({ id }) => id === shownHere)}
          shapeOf={(assembly) => shapeOfAssembly(build, assembly)}
          onChoose={(assembly) => go({ at: 'build', build: build.id, assembly })}
        />
      )}
      {way.slice(folded).map(chip)}
      {has('as-found') && !has('stripping') && !has('trial') ? to('stripping', 'Apart') : undefined}
      <div className="job__ahead">
        {!going || completeAssemblies(build).length === 0 ? undefined : (
          <Chip
            words="Plan"
            more="the next shim"
            here={route.at === 'plan' || route.at === 'swap'}
            onPress={() => go({ at: 'plan', build: build.id })}
          />
        )}
        {going ? to('trial', '+ trial') : undefined}
        {last === undefined ? undefined : chip(last)}
        {has('final') ? undefined : to('final', 'Final')}
      </div>
    </div>
  );
}

/** The assemblies in the order they came, and apart from them the final one where nothing came after it. */
function ended(assemblies: readonly Assembly[]): {
  readonly way: readonly Assembly[];
  readonly last: Assembly | undefined;
} {
  const last = assemblies.at(-1);
  return last?.phase === 'final' ? { way: assemblies.slice(0, -1), last } : { way: assemblies, last: undefined };
}

const closed: ReadonlySet<Next['do']> = new Set(['issue-certificate', 'road-test', 'comeback', 'next-axle']);

interface OpenChipProps {
  readonly build: Build;
  readonly route: Route;
  readonly phase: Phase;
  readonly words: string;
}

/** A phase that is not there yet. */
const OpenChip = ({ build, route, phase, words }: OpenChipProps) => (
  <Chip
    words={words}
    more="open it"
    later
    here={route.at === 'assemble' && route.phase === phase}
    onPress={() => go({ at: 'assemble', build: build.id, phase })}
  />
);

interface AssemblyChipProps {
  readonly build: Build;
  readonly assembly: Assembly;
  readonly here: boolean;
}

const AssemblyChip = ({ build, assembly, here }: AssemblyChipProps) => (
  <Chip
    words={shortName(assembly)}
    {...(shortName(assembly) === assemblyName(assembly) ? {} : { more: assemblyName(assembly) })}
    here={here}
    {...marked(shapeOfAssembly(build, assembly))}
    onPress={() => go({ at: 'build', build: build.id, assembly: assembly.id })}
  />
);

/** What is done needs no mark; what is missing or outside has one. */
const marked = (shape: Shape): { readonly shape?: Shape } => (shape === 'recorded' ? {} : { shape });

function shortName(assembly: Assembly): string {
  if (assembly.phase === 'trial') return `T${assembly.number}`;
  return assembly.phase === 'stripping' ? 'Apart' : assemblyName(assembly);
}

/**
 * An assembly is done when nothing required is missing, and outside when something measured stands in its way or its mark
 * asked for another shim. One that came through all of it has the full disc, unless something was overridden.
 */
function shapeOfAssembly(build: Build, assembly: Assembly): Shape {
  if (!isDescribed(build)) return 'not-measured';
  const { ready, states, gate } = readinessOf(build, assembly);
  const mark = markJudgement(assembly);
  if (mark === 'change' || states.some((state) => state.inTheWay && state.standing === 'outside')) return 'outside';
  if (!ready) return 'not-measured';
  if (states.some(({ override }) => override !== undefined)) return 'overridden';
  return gate !== undefined && mark === 'accepted' ? 'within' : 'recorded';
}
