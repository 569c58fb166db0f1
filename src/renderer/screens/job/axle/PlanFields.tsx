import type { UnitSystem } from '../../../../shared/basics/show.ts';
import { assumedIn } from '../../../../shared/job/planning/assumed.ts';
import { type AxleDraft, readAxle } from './draft.ts';

interface PlanFieldsProps {
  readonly draft: AxleDraft;
  readonly units: UnitSystem;
  readonly length: (
    field: 'faceWidth_mm' | 'offset_mm' | 'pinionStep_mm' | 'ringStep_mm',
    label: string,
  ) => React.ReactNode;
  readonly number: (field: 'pinionSpiral_deg' | 'pressureAngle_deg', label: string) => React.ReactNode;
}

/** What makes the plan surer: read off the parts where it can be, else assumed, and which of it is assumed. */
export function PlanFields({ draft, units, length, number }: PlanFieldsProps) {
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
        {length('ringStep_mm', notch ? 'One notch moves the ring gear' : 'Side shims in steps of')}
      </div>
      <p className="quiet">{assumedWords(draft, units)}</p>
    </section>
  );
}

function assumedWords(draft: AxleDraft, units: UnitSystem): string {
  const read = readAxle(draft, units);
  if (!read.ok) return 'What is left empty is assumed, and the plan says so.';
  if (read.value.outerDiameter_mm === undefined) return 'Without the ring gear’s outer diameter there is no plan.';
  const assumed = assumedIn(read.value, units);
  return assumed.length === 0 ? 'Nothing is assumed.' : `Assumed: ${assumed.join('; ')}.`;
}
