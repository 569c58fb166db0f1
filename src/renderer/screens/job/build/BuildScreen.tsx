import {
  type Assembly,
  assemblyName,
  type Build,
  currentAssembly,
  latest,
} from '../../../../shared/job/records/build.ts';
import { gateOf, isDescribed, nextStep, readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { settleSentence } from '../../../../shared/presentation/words/standing.ts';
import { nextWords } from '../../../words/next.ts';
import { AssemblyStanding } from './AssemblyStanding.tsx';
import { BuildBeginning } from './BuildBeginning.tsx';
import { ThisBuild } from './ThisBuild.tsx';
import './build.css';

/** Where the build stands: the assembly on the stand, what keeps its gate shut, and its pictures. */
export function BuildScreen({
  build,
  assembly: wanted,
}: {
  readonly build: Build;
  readonly assembly: string | undefined;
}) {
  const current = currentAssembly(build);
  const assembly = build.assemblies.find((one) => one.id === wanted) ?? current;
  const next = nextWords(build, nextStep(build));
  return (
    <>
      <Stage
        title={stageTitle(assembly, current)}
        aside={<ThisBuild key={`${build.lies} ${build.title}`} build={build} />}
      >
        {assembly === undefined || !isDescribed(build) ? (
          <BuildBeginning build={build} />
        ) : (
          <AssemblyStanding build={build} assembly={assembly} />
        )}
      </Stage>
      <Words
        title="What comes next"
        next={{ words: next.words, run: () => go(next.route) }}
        others={
          build.assemblies.length === 0 ? undefined : (
            <>
              <Button onPress={() => go({ at: 'trials', build: build.id })}>All trials</Button>
              {assembly === undefined ||
              gateOf(assembly) === undefined ||
              latest(assembly, 'mark') !== undefined ? undefined : (
                <Button onPress={() => go({ at: 'painting', build: build.id, assembly: assembly.id })}>
                  How to paint
                </Button>
              )}
            </>
          )
        }
      >
        <p>{next.why}</p>
        <CloseCallWords build={build} assembly={current} />
        <WithoutLimitWords build={build} assembly={current} />
      </Words>
    </>
  );
}

const stageTitle = (assembly: Assembly | undefined, current: Assembly | undefined): string => {
  if (assembly === undefined) return 'Before the first reading';
  return assembly === current ? `${assemblyName(assembly)}, on the stand` : `${assemblyName(assembly)}, taken apart`;
};

/** One sentence for all readings that have no limit: they are recorded, and the limits can still be entered. */
function WithoutLimitWords({ build, assembly }: { readonly build: Build; readonly assembly: Assembly | undefined }) {
  if (assembly === undefined || !isDescribed(build)) return undefined;
  const { withoutLimit } = readinessOf(build, assembly);
  if (withoutLimit.length === 0) return undefined;
  const names = withoutLimit.map((state) => state.check.title.toLowerCase()).join(', ');
  const line = withoutLimit[0]?.check.limits[0];
  return (
    <p>
      No limit is entered for {names}: recorded only.{' '}
      <Button
        look="quiet"
        onPress={() => go({ at: 'limits', build: build.id, ...(line === undefined ? {} : { line }) })}
      >
        Enter limits
      </Button>
    </p>
  );
}

/** Close calls warn and do not block. */
function CloseCallWords({ build, assembly }: { readonly build: Build; readonly assembly: Assembly | undefined }) {
  if (assembly === undefined || !isDescribed(build)) return undefined;
  const { closeCalls } = readinessOf(build, assembly);
  if (closeCalls.length === 0) return undefined;
  const names = closeCalls.map((state) => state.check.title.toLowerCase()).join(', ');
  const settles = closeCalls.flatMap((state) =>
    state.measurement === undefined ? [] : settleSentence(state, state.measurement),
  );
  return (
    <p>
      Too close to call: {names}.{[...new Set(settles)].join('')}
    </p>
  );
}
