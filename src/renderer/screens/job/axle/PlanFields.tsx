import { type MakeUp, notchOf } from '../../../../shared/axle/makeUp.ts';
import { questionsAbout, unusualNotch } from '../../../../shared/axle/makeUpDoubts.ts';
import { showText, type UnitSystem } from '../../../../shared/basics/show.ts';
import { assumedIn } from '../../../../shared/job/planning/assumed.ts';
import { type AxleDraft, readAxle } from './draft.ts';

interface PlanFieldsProps {
  readonly draft: AxleDraft;
  readonly units: UnitSystem;
  readonly length: (
    field: 'faceWidth_mm' | 'offset_mm' | 'pinionStep_mm' | 'ringStep_mm' | 'threadPitch_mm',
    label: string,
  ) => React.ReactNode;
  readonly number: (
    field: 'pinionSpiral_deg' | 'pressureAngle_deg' | 'notchesPerTurn',
    label: string,
  ) => React.ReactNode;
  readonly text: (field: 'axleName' | 'gearMaker', label: string) => React.ReactNode;
}

/** What makes the plan surer: read off the parts where it can be, else assumed, and which of it is assumed. */
export function PlanFields({ draft, units, length, number, text }: PlanFieldsProps) {
  const notch = draft.caseAdjustment === 'threaded-adjusters';
  return (
    <section className="form__part">
      <h2 className="form__heading">For the plan, as far as it can be read off the parts</h2>
      <div className="form__fields form__fields--short">
        {length('offset_mm', 'Offset of the pinion')}
        {length('faceWidth_mm', 'Face width')}
        {number('pinionSpiral_deg', 'Pinion spiral angle, °')}
        {number('pressureAngle_deg', 'Pressure angle, °')}
        {length('pinionStep_mm', 'Depth shims in steps of')}
        {notch ? length('threadPitch_mm', 'Adjuster moves in one turn') : undefined}
        {notch ? number('notchesPerTurn', 'Notches once round') : undefined}
        {length('ringStep_mm', notch ? 'One notch as calibrated' : 'Side shims in steps of')}
        {text('axleName', 'Axle, as you call it')}
        {text('gearMaker', 'Gears made by')}
      </div>
      <p className="quiet">{assumedWords(draft, units)}</p>
    </section>
  );
}

function assumedWords(draft: AxleDraft, units: UnitSystem): string {
  const read = readAxle(draft, units);
  if (!read.ok) return 'What is left empty is assumed, and the plan says so.';
  if (read.value.outerDiameter_mm === undefined) return 'Without the ring gear’s outer diameter there is no plan.';
  const asked = [...questionsAbout(read.value), ...notchWords(read.value, units)];
  const assumed = assumedIn(read.value, units);
  const said = assumed.length === 0 ? 'Nothing is assumed.' : `Assumed: ${assumed.join('; ')}.`;
  return [...asked, said].join(' ');
}

/** What a notch comes to, or why no card will count in notches. */
function notchWords(makeUp: MakeUp, units: UnitSystem): readonly string[] {
  if (makeUp.caseAdjustment !== 'threaded-adjusters') return [];
  const notch = notchOf(makeUp);
  if (notch === undefined)
    return [
      'How far a notch moves the ring gear is not known yet, so swap cards count in backlash and not in notches.',
    ];
  const size = `One notch moves the ring gear ${showText(notch, 'length', units)}.`;
  return [unusualNotch(notch) ? `${size} That is unusual: check thread and notches.` : size];
}
