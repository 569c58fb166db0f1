import { useState } from 'react';
import type { BacklashBasis } from '../../../../shared/basics/recorded.ts';
import type { StemSaid, CaptureSettingsOf } from '../../../../shared/job/records/measurement.ts';
import { Choice } from '../../../parts/Choice.tsx';
import { Field } from '../../../parts/Field.tsx';
import { Pick } from '../../../parts/Pick.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { directions, places, stemAsWanted, stemBrief, stemSentence, withStem } from './backlashStem.ts';
import { numberTyped } from './numbers.ts';

interface BacklashStemProps {
  readonly settings: CaptureSettingsOf<'backlash'>;
  readonly onChange: (settings: CaptureSettingsOf<'backlash'>) => void;
  /** Radius of the heel, offered where the stem stands at a radius and none is typed yet. */
  readonly heelRadius_mm: number | undefined;
}

/** Which way the stem stands, at which radius, how far off, and how well all that is known. */
export const BacklashStem = (props: BacklashStemProps) => (
  <Reveal label="How the stem stands" words={stemBrief(props.settings)}>
    <StemFields {...props} />
    <Place {...props} />
    <p className="quiet">{stemSentence(props.settings)}</p>
  </Reveal>
);

const offs = [0, 5, 10, 15, 20, 30] as const;
const withins = [2, 5, 10] as const;

function StemFields({ settings, onChange }: BacklashStemProps) {
  const { basis, stem = stemAsWanted } = settings;
  const turn = (direction: BacklashBasis['direction']) => onChange(withStem(settings, stem, { ...basis, direction }));
  const say = (said: StemSaid) => onChange(withStem(settings, said, basis));
  return (
    <>
      <Choice label="Direction" value={basis.direction} onChange={turn} options={directions} />
      <Choice
        label="Tip of the stem"
        value={stem.tip}
        onChange={(tip) => say({ ...stem, tip })}
        options={[
          { value: 'rides-flank', words: 'Rides on the flank' },
          { value: 'follows-point', words: 'Follows one point' },
        ]}
      />
      <div className="reveal__pair">
        <Pick
          label="Off that direction by"
          value={String(stem.off_deg)}
          onChange={(off) => say({ ...stem, off_deg: Number(off) })}
          options={offs.map((off) => ({ value: String(off), words: off === 0 ? 'Not off' : `${off}°` }))}
        />
        <Pick
          label="Known to within"
          value={String(stem.offWithin_deg ?? 0)}
          onChange={(within) => say(knownWithin(stem, Number(within)))}
          options={[
            { value: '0', words: 'Not said' },
            ...withins.map((within) => ({ value: String(within), words: `± ${within}°` })),
          ]}
        />
      </div>
    </>
  );
}

function knownWithin(stem: StemSaid, within: number): StemSaid {
  const { offWithin_deg: _, ...rest } = stem;
  return within === 0 ? rest : { ...rest, offWithin_deg: within };
}

/** At the heel, or at a radius with how well it was measured. */
function Place({ settings, onChange, heelRadius_mm }: BacklashStemProps) {
  const { basis, stem = stemAsWanted } = settings;
  const { radius_mm: _, radiusWithin_mm, ...stemAnywhere } = stem;
  const [radius, setRadius] = useState(basis.at === 'heel' ? '' : String(basis.at.radius_mm));
  const [within, setWithin] = useState(radiusWithin_mm === undefined ? '' : String(radiusWithin_mm));
  const lay = (text: string, bound: string): void => {
    setRadius(text);
    setWithin(bound);
    const at = numberTyped(text, 1, 1000);
    if (at === undefined) return;
    const known = numberTyped(bound, 0.01, 100);
    const said = known === undefined ? stemAnywhere : { ...stemAnywhere, radius_mm: at, radiusWithin_mm: known };
    onChange(withStem(settings, said, { ...basis, at: { radius_mm: at } }));
  };
  return (
    <>
      <Choice
        label="Place"
        value={basis.at === 'heel' ? 'heel' : 'radius'}
        onChange={(place) => {
          if (place === 'heel') onChange(withStem(settings, stemAnywhere, { ...basis, at: 'heel' }));
          else lay(radius === '' ? String(heelRadius_mm ?? 100) : radius, within);
        }}
        options={places}
      />
      {basis.at === 'heel' ? undefined : (
        <div className="reveal__pair">
          <Field
            label="Radius, mm"
            inputMode="decimal"
            value={radius}
            error={numberTyped(radius, 1, 1000) === undefined ? 'From the middle of the gear, in mm.' : undefined}
            onChange={(text) => lay(text, within)}
          />
          <Field
            label="Known to within, mm"
            inputMode="decimal"
            value={within}
            onChange={(text) => lay(radius, text)}
          />
        </div>
      )}
    </>
  );
}
