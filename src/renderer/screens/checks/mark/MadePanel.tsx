import { show } from '../../../../shared/basics/show.ts';
import { slotOf } from '../../../live/slots.ts';
import { Button } from '../../../parts/Button.tsx';
import { Field } from '../../../parts/Field.tsx';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { Reveal } from '../../../parts/Reveal.tsx';
import { asWritten, Suggest } from '../../../parts/Suggest.tsx';
import { gaugesFor, useLiveGauges } from '../../../stores/gauges.ts';
import { type MadeDraft, madeWords } from './made.ts';

interface MadePanelProps {
  readonly made: MadeDraft;
  readonly onChange: (made: MadeDraft) => void;
  readonly note: string;
  readonly onNote: (note: string) => void;
}

const compounds = asWritten(['Yellow', 'Red', 'Blue', 'White', 'Grey']);

/** How the mark was made; marks are compared with a warning where they were made differently. */
export function MadePanel({ made, onChange, note, onNote }: MadePanelProps) {
  const gauges = useLiveGauges();
  const torque = gaugesFor(gauges, 'torque').find(({ id }) => gauges.live.has(id));
  const measured = (): void => {
    const value = torque === undefined ? undefined : slotOf(torque.id).value;
    if (value === undefined) return;
    const { digits } = show(Math.abs(value), 'torque', 'metric');
    onChange({ ...made, drag: { text: digits, unit: 'N.m' } });
  };
  return (
    <Reveal label="How the mark was made, and a note" words={madeWords(made)}>
      <Suggest
        label="Compound"
        value={made.compound}
        options={compounds}
        onChange={(compound) => onChange({ ...made, compound })}
      />
      <QuantityField
        label="Drag on the ring gear"
        measure="torque"
        draft={made.drag}
        hint="As the pinion felt it while turning"
        onChange={(drag) => onChange({ ...made, drag })}
      />
      {torque === undefined ? undefined : (
        <Button onPress={measured} more={torque.label}>
          Take what the torque gauge reads now
        </Button>
      )}
      <Field
        label="Turns of the ring gear, each way"
        value={made.turns}
        inputMode="decimal"
        onChange={(turns) => onChange({ ...made, turns })}
      />
      <QuantityField
        label="Film, if it was measured"
        measure="length"
        draft={made.film}
        onChange={(film) => onChange({ ...made, film })}
      />
      <Field label="Note on this mark" value={note} onChange={onNote} />
    </Reveal>
  );
}
