import { useState } from 'react';
import type { Build } from '../../../shared/records/build.ts';
import { Choice } from '../../parts/Choice.tsx';
import { Field } from '../../parts/Field.tsx';
import { Stage } from '../../parts/Stage.tsx';
import { Words } from '../../parts/Words.tsx';
import { writeDeed } from '../../stores/notebook.ts';
import { go } from '../../stores/route.ts';
import { type AxleDraft, axleDraftOf, type AxleErrors, blankAxle, readAxle } from './draft.ts';
import { axleOptions } from './options.ts';
import './axle.css';

/** How the axle is made. It decides which steps are asked; nothing here is a limit. */
export function AxleScreen({ build }: { readonly build: Build }) {
  const [draft, setDraft] = useState<AxleDraft>(build.makeUp === undefined ? blankAxle : axleDraftOf(build.makeUp));
  const [tried, setTried] = useState(false);
  const read = readAxle(draft);
  const errors: AxleErrors = tried && 'errors' in read ? read.errors : {};
  const save = async (): Promise<void> => {
    setTried(true);
    if ('errors' in read) return;
    const written = await writeDeed({ kind: 'described', makeUp: read.makeUp });
    if (written)
      go(build.specSheet === undefined ? { at: 'limits', build: build.id } : { at: 'build', build: build.id });
  };
  const missing = 'errors' in read ? Object.keys(read.errors).length : 0;
  return (
    <>
      <Stage title="The axle">
        <AxleForm draft={draft} errors={errors} onChange={(change) => setDraft({ ...draft, ...change })} />
      </Stage>
      <Words
        title={
          tried && missing > 0
            ? `${missing === 1 ? 'One answer is' : `${missing} answers are`} missing`
            : 'How it is made'
        }
        next={{
          words: build.makeUp === undefined ? 'Keep this description' : 'Keep the changes',
          run: () => void save(),
        }}
      >
        <p>The make-up decides which steps are asked and which way a shim moves things. {ratioWords(draft)}</p>
        <p className="quiet">Drive is the flank loaded when the vehicle pulls forward: convex on most axles.</p>
      </Words>
    </>
  );
}

interface AxleFormProps {
  readonly draft: AxleDraft;
  readonly errors: AxleErrors;
  readonly onChange: (change: Partial<AxleDraft>) => void;
}

function AxleForm({ draft, errors, onChange }: AxleFormProps) {
  const number = (field: 'pinionTeeth' | 'ringTeeth' | 'outerDiameter_mm' | 'ringBolts', label: string) => (
    <Field
      label={label}
      inputMode="numeric"
      value={draft[field] ?? ''}
      error={errors[field]}
      onChange={(text) => onChange({ [field]: text })}
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
    <div className="axle">
      <div className="axle__numbers">
        {number('pinionTeeth', 'Pinion teeth')}
        {number('ringTeeth', 'Ring gear teeth')}
        {number('outerDiameter_mm', 'Ring gear outer diameter, mm')}
        {number('ringBolts', 'Ring gear bolts')}
      </div>
      <div className="axle__choices">
        {choice('gearSet', 'Gear set')}
        {choice('cut', 'Cut of the teeth')}
        {choice('driveFlank', 'Drive flank of the ring gear')}
        {choice('pinionMount', 'Pinion carried')}
        {choice('pinionPreload', 'Pinion preload by')}
        {choice('trialBearings', 'Trials run on')}
        {choice('caseAdjustment', 'Case moved sideways by')}
        {choice('depthShimPlace', 'Pinion depth shim')}
      </div>
    </div>
  );
}

function ratioWords(draft: AxleDraft): string {
  const ratio = Number(draft.ringTeeth) / Number(draft.pinionTeeth);
  return Number.isFinite(ratio) && ratio > 0
    ? `${draft.ringTeeth} to ${draft.pinionTeeth} is ${ratio.toFixed(2)} to 1.`
    : '';
}
