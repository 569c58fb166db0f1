import { type Assembly, assemblyName, type Build } from '../../../../shared/job/records/build.ts';
import { type CheckState, isDescribed, type Readiness, readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { Button } from '../../../parts/Button.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { StateMark } from '../../../parts/StateMark.tsx';
import { Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { gateTitle } from '../../job/build/gate.ts';
import { Overridden } from '../../job/build/Overridden.tsx';
import '../../job/build/build.css';
import './painting.css';

interface PaintingScreenProps {
  readonly build: Build;
  readonly assembly: Assembly;
}

/** Before painting: whether the trial is ready for it, and how it is done. */
export function PaintingScreen({ build, assembly }: PaintingScreenProps) {
  const readiness = isDescribed(build) ? readinessOf(build, assembly) : undefined;
  return (
    <>
      <Stage title={`${assemblyName(assembly)}: painting the teeth`}>
        <div className="painting">
          {readiness === undefined ? undefined : (
            <Gate
              phase={assembly.phase}
              readiness={readiness}
              onTake={() => go({ at: 'build', build: build.id, assembly: assembly.id })}
            />
          )}
          {readiness === undefined ? undefined : <Overridden states={readiness.states} />}
          <ol className="painting__steps">
            {steps.map(({ what, how }) => (
              <li key={what}>
                <strong>{what}</strong> {how}
              </li>
            ))}
          </ol>
        </div>
      </Stage>
      <PaintingWords build={build} assembly={assembly} />
    </>
  );
}

/** The caution that goes before everything, and the way to the mark. */
const PaintingWords = ({ build, assembly }: PaintingScreenProps) => (
  <Words
    title="Fingers, rags and sleeves off the mesh"
    next={{
      words: 'Read the mark',
      run: () => go({ at: 'check', build: build.id, assembly: assembly.id, check: 'mark' }),
    }}
    others={
      build.makeUp?.cut === 'not-known' ? (
        <Button onPress={() => go({ at: 'cut', build: build.id })}>Tell the cut</Button>
      ) : undefined
    }
  >
    <p>
      Turn by hand only, never with a power tool; a pinion can spin when the drag lets go. The maker’s manual for this
      axle goes before these words.
    </p>
  </Words>
);

interface GateProps {
  readonly phase: Assembly['phase'];
  readonly readiness: Readiness;
  /** To where what stands in the way is taken or overridden. */
  readonly onTake: () => void;
}

/** Whether it is ready to be painted, and what is not there yet. */
const Gate = ({ phase, readiness, onTake }: GateProps) => (
  <section className="painting__gate" aria-label="Ready to paint">
    <StateMark shape={readiness.ready ? 'within' : 'not-measured'} size={28} />
    <div className="painting__words">
      <h2 className="painting__title">{gateTitle(phase, readiness)}</h2>
      {readiness.ready ? undefined : <p className="quiet">{namesOf(readiness.inTheWay)}</p>}
    </div>
    {readiness.ready ? undefined : <Button onPress={onTake}>Take or override</Button>}
  </section>
);

const namesOf = (states: readonly CheckState[]): string => `${states.map(({ check }) => check.title).join(', ')}.`;

/** Common practice, in the order of the hands. */
const steps = [
  { what: 'Clean and dry.', how: 'Wipe the teeth of both gears; oil under the compound smears it.' },
  {
    what: 'Three or four teeth, in two or three places.',
    how: 'Both flanks of the ring gear. More places tell runout from depth.',
  },
  {
    what: 'A thin, even film.',
    how: 'Work it on card first; a little gear oil if it is stiff. Thick film hides the edges.',
  },
  {
    what: 'Drag on the ring gear.',
    how: 'A brake or a block of wood, the same every time. Without it the mark says little. The torque gauge can tell how much.',
  },
  {
    what: 'Turn both ways.',
    how: 'A few turns forward and back, so that drive and coast are both marked. Too many smear it.',
  },
  {
    what: 'Look at once.',
    how: 'Draw or photograph both flanks before anything is touched; then wipe the compound off.',
  },
] as const;
