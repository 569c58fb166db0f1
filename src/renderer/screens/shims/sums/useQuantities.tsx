import type { Length, Torque } from '../../../../shared/basics/quantity.ts';
import type { QuantityTyped } from '../../../../shared/basics/recorded.ts';
import { draftOf, emptyDraft, type Measure, type QuantityDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useHeld } from '../../../parts/useDraft.ts';
import { useSession } from '../../../stores/session.ts';
import { lengthIn, torqueIn } from './inputs.ts';

/** The draft under each name, begun with what the build knows of it, else empty in the units of the session, with a field for it. */
function useQuantities<Name extends string>(measure: Measure, begun: (name: Name) => QuantityTyped | undefined) {
  const units = useSession((session) => session.units);
  const { draft, change } = useHeld<{ readonly typed: ReadonlyMap<Name, QuantityDraft> }>(() => ({ typed: new Map() }));
  const draftFor = (name: Name): QuantityDraft => {
    const known = begun(name);
    return draft.typed.get(name) ?? (known === undefined ? emptyDraft(measure, units) : draftOf(known));
  };
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

const nothingKnown = (): undefined => undefined;

/** Typed lengths by name: a field for each, and what stands in it. */
export function useLengths<Name extends string>(begun: (name: Name) => QuantityTyped | undefined = nothingKnown) {
  const { draftFor, field } = useQuantities<Name>('length', begun);
  return { field, read: (name: Name): Length | undefined => lengthIn(draftFor(name)) };
}

/** As {@link useLengths}, of rotating torques. */
export function useTorques<Name extends string>() {
  const { draftFor, field } = useQuantities<Name>('torque', nothingKnown);
  return { field, read: (name: Name): Torque | undefined => torqueIn(draftFor(name)) };
}
