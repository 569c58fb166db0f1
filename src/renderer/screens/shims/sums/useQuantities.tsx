import type { Length, Torque } from '../../../../shared/basics/quantity.ts';
import { emptyDraft, type Measure, type QuantityDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { useSession } from '../../../stores/session.ts';
import { lengthIn, torqueIn } from './inputs.ts';

/** The draft under each name, begun in the units of the session, with a field for it. */
function useQuantities<Name extends string>(measure: Measure) {
  const units = useSession((session) => session.units);
  const { draft, change } = useHeld<{ readonly typed: ReadonlyMap<Name, QuantityDraft> }>(() => ({ typed: new Map() }));
  const draftFor = (name: Name): QuantityDraft => draft.typed.get(name) ?? emptyDraft(measure, units);
  const field = (name: Name, label: string, hint?: string) => (
    <QuantityField
      key={name}
      label={label}
      measure={measure}
      draft={draftFor(name)}
      hint={hint}
      onChange={(now) => change({ typed: new Map(draft.typed).set(name, now) })}
    />
  );
  return { draftFor, field };
}

/** Typed lengths by name: a field for each, and what stands in it. */
export function useLengths<Name extends string>() {
  const { draftFor, field } = useQuantities<Name>('length');
  return { field, read: (name: Name): Length | undefined => lengthIn(draftFor(name)) };
}

/** As {@link useLengths}, of rotating torques. */
export function useTorques<Name extends string>() {
  const { draftFor, field } = useQuantities<Name>('torque');
  return { field, read: (name: Name): Torque | undefined => torqueIn(draftFor(name)) };
}
