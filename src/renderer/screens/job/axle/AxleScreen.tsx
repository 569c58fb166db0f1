import { useState } from 'react';
import type { Build } from '../../../../shared/job/records/build.ts';
import { withStepsOf } from '../../../../shared/job/planning/assumed.ts';
import { Button } from '../../../parts/Button.tsx';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Form } from '../../../parts/Form.tsx';
import { useDraft, useHeld } from '../../../parts/useDraft.ts';
import { Stage } from '../../../parts/Stage.tsx';
import { Words } from '../../../parts/Words.tsx';
import { unitShown, type UnitSystem } from '../../../../shared/basics/show.ts';
import type { MakeUp } from '../../../../shared/axle/makeUp.ts';
import { turnedRound } from '../../../../shared/axle/makeUpChange.ts';
import { useBenchSeen } from '../../../stores/bench.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { useSession } from '../../../stores/session.ts';
import {
  type AxleDraft,
  axleDraftOf,
  type AxleErrors,
  blankAxle,
  type LengthField,
  type PlainField,
  readAxle,
  type TextField,
} from './draft.ts';
import { axleOptions } from './options.ts';
import { PlanFields } from './PlanFields.tsx';
import '../../../parts/form.css';

/** How the axle is made. It decides which steps are asked; nothing here is a limit. */
export function AxleScreen({ build }: { readonly build: Build }) {
  // Digits typed so far keep their unit, whatever is shown elsewhere meanwhile.
  const [units] = useState(() => useSession.getState().units);
  const held = useHeld<AxleDraft>(() => (build.makeUp === undefined ? blankAxle : axleDraftOf(build.makeUp, units)));
  const [asked, setAsked] = useState<readonly string[]>([]);
  const { draft, change, errors, submit } = useDraft(held, {
    read: (now) => readAxle(now, units),
    keep: async (makeUp) => {
      const turned = hasReadings(build) ? turnedRound(build.makeUp, makeUp) : [];
      if (turned.join() !== asked.join()) {
        setAsked(turned);
        return false;
      }
      const written = await writeDeed({ kind: 'described', makeUp: withStepsOf(makeUp, units) });
      if (written) go({ at: build.specSheet === undefined ? 'limits' : 'build', build: build.id });
      return written;
    },
  });
  const missing = Object.keys(errors).length;
  return (
    <>
      <Stage title="The axle">
        <Form className="form" words="Keep this description" submit={submit}>
          <AxleFields draft={draft} units={units} errors={errors} onChange={change} />
        </Form>
      </Stage>
      <Words
        title={missing > 0 ? `${missing === 1 ? 'One answer is' : `${missing} answers are`} missing` : 'How it is made'}
        next={{
          words: keepWords(build, asked),
          run: submit,
        }}
        others={
          build.makeUp === undefined ? (
            <FillIn onFill={(makeUp) => change(axleDraftOf(makeUp, units))} />
          ) : (
            <Button onPress={() => go({ at: 'cut', build: build.id })}>Tell the cut from the teeth</Button>
          )
        }
      >
        {asked.length === 0 ? undefined : (
          <p role="alert">
            There are readings already, and this changes {asked.join(', ')}. They keep their numbers; what those mean
            changes with it.
          </p>
        )}
        <p>The make-up decides which steps are asked and which way a shim moves things. {ratioWords(draft)}</p>
        <p className="quiet">
          Drive is the flank loaded when the vehicle pulls forward: the convex one on rear axles and on front axles
          whose pinion sits high (reverse cut), the concave one on front axles of standard cut.
        </p>
      </Words>
    </>
  );
}

const hasReadings = ({ assemblies }: Build): boolean => assemblies.some(({ measurements }) => measurements.length > 0);

function keepWords({ makeUp }: Build, asked: readonly string[]): string {
  if (makeUp === undefined) return 'Keep this description';
  return asked.length === 0 ? 'Keep the changes' : 'Change it all the same';
}

/** On the simulated bench nobody need guess what stands on it. */
function FillIn({ onFill }: { readonly onFill: (makeUp: MakeUp) => void }) {
  const axle = useBenchSeen(({ about }) => about?.simulatedAxle);
  return axle === undefined ? undefined : (
    <Button onPress={() => onFill(axle.makeUp)}>Fill in the simulated axle</Button>
  );
}

/** Without these there is no description, or no plan. */
const askedFields: ReadonlySet<LengthField | PlainField> = new Set(['pinionTeeth', 'ringTeeth', 'outerDiameter_mm']);

interface AxleFieldsProps {
  readonly draft: AxleDraft;
  readonly units: UnitSystem;
  readonly errors: AxleErrors;
  readonly onChange: (change: Partial<AxleDraft>) => void;
}

function AxleFields({ draft, units, errors, onChange }: AxleFieldsProps) {
  const field = (field: LengthField | PlainField, label: string, inputMode: 'numeric' | 'decimal') => (
    <Field
      label={label}
      inputMode={inputMode}
      autoFocus={field === 'pinionTeeth' && draft.pinionTeeth === ''}
      asked={askedFields.has(field)}
      value={draft[field] ?? ''}
      error={errors[field]}
      onChange={(text) => onChange({ [field]: text })}
    />
  );
  const number = (name: PlainField, label: string) => field(name, label, 'numeric');
  const length = (name: LengthField, label: string) =>
    field(name, `${label}, ${unitShown('length', units).symbol}`, 'decimal');
  const text = (name: TextField, label: string) => (
    <Field
      label={label}
      value={draft[name] ?? ''}
      error={errors[name]}
      onChange={(typed) => onChange({ [name]: typed })}
    />
  );
  const choice = (field: keyof typeof axleOptions, label: string) => (
    <Choice<string>
      label={label}
      options={axleOptions[field]}
      value={draft[field]}
      error={errors[field]}
      onChange={(value) => onChange({ [field]: value })}
    />
  );
  return (
    <>
      <div className="form__fields form__fields--short">
        {number('pinionTeeth', 'Pinion teeth')}
        {number('ringTeeth', 'Ring gear teeth')}
        {length('outerDiameter_mm', 'Ring gear diameter')}
        {number('ringBolts', 'Ring gear bolts')}
      </div>
      <div className="form__choices">
        {choice('gearSet', 'Gear set')}
        {choice('cut', 'Cut of the teeth')}
        {choice('driveFlank', 'Drive flank of the ring gear')}
        {choice('pinionMount', 'Pinion carried')}
        {choice('pinionPreload', 'Pinion preload by')}
        {choice('trialBearings', 'Trials run on')}
        {choice('caseAdjustment', 'Case moved sideways by')}
        {choice('depthShimPlace', 'Pinion depth shim')}
        {choice('differential', 'Differential, if known')}
        {choice('shaftsHeldBy', 'Axle shafts held, if known')}
      </div>
      <PlanFields draft={draft} units={units} length={length} number={number} text={text} />
    </>
  );
}

function ratioWords(draft: AxleDraft): string {
  const ratio = Number(draft.ringTeeth) / Number(draft.pinionTeeth);
  return Number.isFinite(ratio) && ratio > 0
    ? `${draft.ringTeeth} to ${draft.pinionTeeth} is ${ratio.toFixed(2)} to 1.`
    : '';
}
