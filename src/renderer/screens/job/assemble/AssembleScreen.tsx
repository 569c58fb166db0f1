import { assemblyName, type Build, latest } from '../../../../shared/job/records/build.ts';
import type { BearingState } from '../../../../shared/basics/recorded.ts';
import type { Phase } from '../../../../shared/job/records/checkIds.ts';
import { isDescribed, readinessOf } from '../../../../shared/job/checks/readiness.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice, type Option } from '../../../parts/Choice.tsx';
import { Stage } from '../../../parts/Stage.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { type NextAction, Words } from '../../../parts/Words.tsx';
import { go } from '../../../stores/route.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { goToNextInstead } from '../../checks/check/goOn.ts';
import { Ahead } from './Ahead.tsx';
import { usualAssembly } from './usual.ts';
import './assemble.css';

const explained: Readonly<Record<Phase, string>> = {
  'as-found':
    'Before anything is loosened. What is not read now is lost once the axle is stripped, and for a used set it is the target.',
  stripping:
    'Caps and sides marked before they come off, each shim measured with its place, the pinion turned alone once the case is out.',
  trial: 'One putting-together with one set of shims. Everything measured in earlier trials stays.',
  final: 'Good bearings, sleeve or spacer, seal, all preloads. A final mark that fails opens a further trial.',
};

const titles: Readonly<Record<Phase, string>> = {
  'as-found': 'With what it came',
  stripping: 'Before the first bolt is loosened',
  trial: 'With what it is put together',
  final: 'With what it is put together',
};

/** Opens as found, a trial, or the final assembly, and writes down with what it is put together. */
export function AssembleScreen({ build, phase }: { readonly build: Build; readonly phase: Phase }) {
  const { draft: assembly, change } = useHeld(() => usualAssembly(phase, build.makeUp));
  const number = build.assemblies.filter((one) => one.phase === phase).length + 1;
  const name = assemblyName({ phase, number });
  const open = async (): Promise<void> => {
    if (!(await writeDeed({ kind: 'assembled', assembly }))) return;
    goToNextInstead();
  };
  const opens: NextAction = {
    words: phase === 'stripping' ? 'Begin to strip it' : `Open ${name.charAt(0).toLowerCase()}${name.slice(1)}`,
    run: () => void open(),
  };
  const left = phase === 'final' ? trialLeftOpen(build) : undefined;
  const unread = phase === 'stripping' ? unreadTogether(build) : undefined;
  return (
    <>
      <Stage title={name}>
        <div className="assembling">
          <AssemblyChoices
            assembly={assembly}
            spacer={build.makeUp?.pinionPreload === 'solid-spacer'}
            onChange={change}
          />
          <Ahead build={build} phase={phase} />
        </div>
      </Stage>
      <Words
        title={left === undefined ? titles[phase] : `${left.name} is not done`}
        next={left === undefined ? opens : { words: `Back to ${left.name.toLowerCase()}`, run: left.back }}
        others={
          left !== undefined ? (
            <Button onPress={opens.run}>{opens.words} all the same</Button>
          ) : unread === undefined ? undefined : (
            <Button onPress={unread.back}>Back to as found</Button>
          )
        }
      >
        {unread === undefined ? undefined : <p role="alert">{unread.sentence}</p>}
        {left === undefined ? undefined : <p role="alert">{left.sentence}</p>}
        <p>{explained[phase]}</p>
        <p className="quiet">A torque counts only against a limit for the same seal and bearings, so this matters.</p>
      </Words>
    </>
  );
}

/** What only an axle that is still together can show and nobody has read: most new sets need none of it, but it is lost. */
function unreadTogether(build: Build) {
  const found = build.assemblies.findLast((one) => one.phase === 'as-found');
  if (found === undefined || !isDescribed(build)) return undefined;
  const unread = readinessOf(build, found).states.filter(({ measurement }) => measurement === undefined);
  if (unread.length === 0) return undefined;
  const names = unread.map(({ check }) => check.title.toLowerCase());
  return {
    sentence: `Not read yet: ${names.join(', ')}. Once it is stripped nobody can.`,
    back: () => go({ at: 'build', build: build.id, assembly: found.id }),
  };
}

/** The last trial, where things in it are open: the final assembly is no place to find that out. */
function trialLeftOpen(build: Build) {
  const trial = build.assemblies.findLast((one) => one.phase === 'trial');
  if (trial === undefined || !isDescribed(build)) return undefined;
  const { inTheWay } = readinessOf(build, trial);
  const isMarked = latest(trial, 'mark') !== undefined;
  if (inTheWay.length === 0 && isMarked) return undefined;
  const name = assemblyName(trial);
  const things = inTheWay.length === 1 ? 'One thing is' : `${inTheWay.length} things are`;
  const open = inTheWay.length === 0 ? '' : `${things} open in it. `;
  return {
    name,
    sentence: `${open}${isMarked ? '' : 'No mark was seen in it.'}`.trim(),
    back: () => go({ at: 'build', build: build.id, assembly: trial.id }),
  };
}

type AssemblyOpened = ReturnType<typeof usualAssembly>;

interface AssemblyChoicesProps {
  readonly assembly: AssemblyOpened;
  /** Whether the pinion stands on a solid spacer in place of a crush sleeve. */
  readonly spacer: boolean;
  readonly onChange: (change: Partial<AssemblyOpened>) => void;
}

const inOrOut = [
  { value: 'out', words: 'Out' },
  { value: 'in', words: 'In' },
] as const;

const bearings: readonly Option<BearingState>[] = [
  { value: 'set-up', words: 'Set-up bearings, slip fit' },
  { value: 'new', words: 'New' },
  { value: 'used', words: 'Used' },
];

const AssemblyChoices = ({ assembly, spacer, onChange }: AssemblyChoicesProps) => (
  <div className="assemble">
    <Choice
      label="Bearings in it"
      value={assembly.bearings}
      onChange={(state) => onChange({ bearings: state })}
      options={bearings}
    />
    <Choice label="Pinion seal" value={assembly.seal} onChange={(seal) => onChange({ seal })} options={inOrOut} />
    <Choice
      label={spacer ? 'Solid spacer, nut at full torque' : 'Crush sleeve'}
      value={assembly.sleeve ? 'in' : 'out'}
      onChange={(sleeve) => onChange({ sleeve: sleeve === 'in' })}
      options={inOrOut}
    />
  </div>
);
