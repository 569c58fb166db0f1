import type { CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { useState } from 'react';
import { isNone } from '../../../../shared/basics/result.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { numberTyped } from './numbers.ts';
import { fromMeshWords, type RunoutStemSaid, stemSaid } from './runoutStem.ts';

interface RunoutStemProps {
  readonly settings: CaptureSettingsOf<'runout'>;
  readonly onChange: (settings: CaptureSettingsOf<'runout'>) => void;
}

/** Where the indicator stands from the mesh, and how far from the middle: asked once, and not known is an answer. */
export const RunoutStem = (props: RunoutStemProps) => (
  <Reveal label="Where the stem stands" words={fromMeshWords(props.settings.fromMesh_deg)}>
    <RunoutStemFields {...props} />
  </Reveal>
);

function RunoutStemFields({ settings, onChange }: RunoutStemProps) {
  const { fromMesh_deg, radius_mm, ...rest } = settings;
  const lay = (said: RunoutStemSaid): void => onChange({ ...rest, ...stemSaid(said) });
  const [angle, setAngle] = useState(typeof fromMesh_deg === 'number' ? String(fromMesh_deg) : '');
  const [radius, setRadius] = useState(radius_mm === undefined ? '' : String(radius_mm));
  return (
    <>
      <Field
        label="From the mesh, degrees"
        inputMode="decimal"
        hint="Clockwise as you look at the teeth, from the tooth in mesh to the stem: 0 at the pinion, 180 across from it."
        value={angle}
        onChange={(text) => {
          setAngle(text);
          const degrees = numberTyped(text, 0, 360);
          if (degrees !== undefined) lay({ fromMesh_deg: degrees, radius_mm });
        }}
      />
      <Choice
        label="From the mesh it stands"
        value={placeKnown(fromMesh_deg)}
        onChange={(known) => {
          const degrees = numberTyped(angle, 0, 360);
          if (known === 'not-known') lay({ fromMesh_deg: { none: 'not-known' }, radius_mm });
          else if (degrees !== undefined) lay({ fromMesh_deg: degrees, radius_mm });
        }}
        options={[
          { value: 'known', words: 'As entered' },
          { value: 'not-known', words: 'Not known' },
        ]}
      />
      <Field
        label="From the middle of the gear, mm"
        inputMode="decimal"
        hint="May stay empty. A face that wobbles moves more further out."
        value={radius}
        onChange={(text) => {
          setRadius(text);
          lay({ fromMesh_deg, radius_mm: numberTyped(text, 1, 1000) });
        }}
      />
      <p className="quiet">
        Begin with station 1 in mesh and go on in the order of the numbers. Then backlash and runout can be laid side by
        side on the gear.
      </p>
    </>
  );
}

const placeKnown = (fromMesh_deg: RunoutStemSaid['fromMesh_deg']): 'known' | 'not-known' | undefined => {
  if (fromMesh_deg === undefined) return undefined;
  return isNone(fromMesh_deg) ? 'not-known' : 'known';
};
