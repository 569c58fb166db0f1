import { useState } from 'react';
import type { Length } from '../../../../shared/basics/quantity.ts';
import { emptyDraft, type QuantityDraft } from '../../../parts/quantity.ts';
import { QuantityField } from '../../../parts/QuantityField.tsx';
import { useSession } from '../../../stores/session.ts';
import { lengthIn } from './inputs.ts';

/** Typed lengths by name: a field for each, and what stands in it. */
export function useLengths<Name extends string>() {
  const units = useSession((session) => session.units);
  const [drafts, setDrafts] = useState<ReadonlyMap<Name, QuantityDraft>>(new Map());
  const draftFor = (name: Name): QuantityDraft => drafts.get(name) ?? emptyDraft('length', units);
  return {
    read: (name: Name): Length | undefined => lengthIn(draftFor(name)),
    field: (name: Name, label: string, hint?: string) => (
      <QuantityField
        label={label}
        measure="length"
        draft={draftFor(name)}
        hint={hint}
        onChange={(draft) => setDrafts(new Map(drafts).set(name, draft))}
      />
    ),
  };
}
