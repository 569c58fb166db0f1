import { type Assembly, assemblyName, type Build } from '../../shared/job/records/build.ts';
import { isDescribed, nextStep, readinessOf } from '../../shared/job/checks/readiness.ts';
import { completeTrials } from '../../shared/job/planning/seen.ts';
import { go, type Route } from '../stores/route.ts';
import type { Shape } from '../../shared/presentation/words/standing.ts';
import { Chip } from './Chip.tsx';

/** The way of a build: as found, the trials, the final assembly; what is not there yet can be opened. */
export function PhasePath({
  build,
  shown,
  route,
}: {
  readonly build: Build;
  readonly shown: Assembly | undefined;
  readonly route: Route;
}) {
  const has = (phase: Assembly['phase']): boolean => build.assemblies.some((assembly) => assembly.phase === phase);
  const open = (phase: Assembly['phase'], words: string) => (
    <Chip
      key={`open-${phase}`}
      words={words}
      more="open it"
      later
      here={route.at === 'assemble' && route.phase === phase}
      onPress={() => go({ at: 'assemble', build: build.id, phase })}
    />
  );
  const standing = 'assembly' in route || route.at === 'build';
  // With nothing left but the certificate there is nothing left to plan or to try.
  const going = nextStep(build).do !== 'issue-certificate';
  return (
    <div className="job__row">
      {has('as-found') ? undefined : open('as-found', 'As found')}
      {has('as-found') && !has('stripping') && !has('trial') ? open('stripping', 'Apart') : undefined}
      {build.assemblies.map((assembly) => (
        <Chip
          key={assembly.id}
          words={shortName(assembly)}
          {...(shortName(assembly) === assemblyName(assembly) ? {} : { more: assemblyName(assembly) })}
          here={standing && assembly.id === shown?.id}
          shape={shapeOfAssembly(build, assembly)}
          onPress={() => go({ at: 'build', build: build.id, assembly: assembly.id })}
        />
      ))}
      {!going || completeTrials(build).length === 0 ? undefined : (
        <Chip
          words="Plan"
          more="the next shim"
          here={route.at === 'plan' || route.at === 'swap'}
          onPress={() => go({ at: 'plan', build: build.id })}
        />
      )}
      {going ? open('trial', has('trial') ? '+ trial' : 'Trials') : undefined}
      {has('final') ? undefined : open('final', 'Final')}
    </div>
  );
}

function shortName(assembly: Assembly): string {
  if (assembly.phase === 'trial') return `T${assembly.number}`;
  return assembly.phase === 'stripping' ? 'Apart' : assemblyName(assembly);
}

/** An assembly is done when nothing required is missing, and outside when something measured stands in its way. */
function shapeOfAssembly(build: Build, assembly: Assembly): Shape {
  if (!isDescribed(build)) return 'not-measured';
  const { ready, states } = readinessOf(build, assembly);
  if (states.some((state) => state.inTheWay && state.standing === 'outside')) return 'outside';
  return ready ? 'recorded' : 'not-measured';
}
