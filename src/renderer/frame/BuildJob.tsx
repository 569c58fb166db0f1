import { Button } from 'react-aria-components';
import { useCommand } from '../commands/useCommand.ts';
import { type Assembly, type Build, currentAssembly } from '../../shared/job/records/build.ts';
import { isDescribed, nextStep } from '../../shared/job/checks/readiness.ts';
import { canRedo, canUndo, redo, undo, useNotebook } from '../stores/notebook.ts';
import { go, type Route } from '../stores/route.ts';
import { AssemblySteps } from './AssemblySteps.tsx';
import { Chip } from './Chip.tsx';
import { IconButton } from './IconButton.tsx';
import { PhasePath } from './PhasePath.tsx';
import { Who } from './Who.tsx';

/** The open build as the list of its phases and steps, with the way back, undo and redo above it. */
export function BuildJob({ route }: { readonly route: Route }) {
  const open = useNotebook();
  const { build } = open;
  const mayUndo = canUndo(open);
  const mayRedo = canRedo(open);
  useCommand('Ctrl+Z', 'Undo the last entry', mayUndo ? () => void undo() : undefined);
  useCommand('Ctrl+Shift+Z', 'Bring it back', mayRedo ? () => void redo() : undefined);
  useCommand('Ctrl+Y', 'Bring it back', mayRedo ? () => void redo() : undefined);
  return (
    <>
      <header className="job__head">
        <IconButton icon="back" label="All builds" onPress={() => go({ at: 'builds' })} />
        <h2 className="job__title">
          {build === undefined ? (
            'Opening the build …'
          ) : (
            <Button className="job__name" onPress={() => go({ at: 'build', build: build.id })}>
              <span>{build.title}</span>
            </Button>
          )}
        </h2>
        {build === undefined ? undefined : <Who otherwise={build.technician} />}
        {mayRedo ? (
          <IconButton icon="redo" label="Bring back what was undone" onPress={() => void redo()} />
        ) : undefined}
        {/* Last, so that it stays under the finger that takes back more than one. */}
        <IconButton icon="undo" label="Undo" disabled={!mayUndo} onPress={() => void undo()} />
      </header>
      {build === undefined ? (
        <p className="job__empty">Reading the notebook …</p>
      ) : (
        <Steps build={build} route={route} />
      )}
    </>
  );
}

function Steps({ build, route }: { readonly build: Build; readonly route: Route }) {
  const id = build.id;
  const shown = assemblyShown(build, route);
  const next = nextStep(build);
  return (
    <>
      <div className="job__row">
        <Chip
          words="Axle"
          here={route.at === 'axle'}
          {...(isDescribed(build) ? {} : { shape: 'not-measured' })}
          onPress={() => go({ at: 'axle', build: id })}
        />
        <Chip
          words="Limits"
          here={route.at === 'limits'}
          {...(build.specSheet === undefined ? { shape: 'not-measured' } : {})}
          onPress={() => go({ at: 'limits', build: id })}
        />
        <Chip words="Notes" here={route.at === 'notes'} onPress={() => go({ at: 'notes', build: id })} />
        <Chip
          words="Certificate"
          here={route.at === 'certificate'}
          onPress={() => go({ at: 'certificate', build: id })}
        />
      </div>
      <PhasePath build={build} shown={shown} route={route} />
      <div className="job__steps">
        {shown === undefined || !isDescribed(build) ? (
          <p className="job__empty">
            {isDescribed(build)
              ? 'The steps stand here as soon as it is opened.'
              : 'Describe the axle first: its make-up decides which steps are asked.'}
          </p>
        ) : (
          <AssemblySteps build={build} assembly={shown} route={route} next={next} />
        )}
      </div>
    </>
  );
}

/** The assembly whose steps are listed: the one in the route, else the one on the stand; none while one is being opened. */
function assemblyShown(build: Build, route: Route): Assembly | undefined {
  if (route.at === 'assemble') return undefined;
  const wanted = 'assembly' in route ? route.assembly : undefined;
  return build.assemblies.find((assembly) => assembly.id === wanted) ?? currentAssembly(build);
}
