import { useState } from 'react';
import type { HeldDraft } from './useDraft.ts';

/**
 * Drafts that outlast a look at another screen, each by the key of what it is for. What is typed lies on the page alone
 * until it is kept in the notebook.
 */
export function heldOver<Draft extends object>() {
  const held = new Map<string, Draft>();
  return {
    forget: (key: string): void => void held.delete(key),
    use(key: string, start: () => Draft): HeldDraft<Draft> {
      const [begun] = useState(() => held.get(key) ?? start());
      const [draft, setDraft] = useState(begun);
      const change = (some: Partial<Draft>): void =>
        setDraft((now) => {
          const next = { ...now, ...some };
          held.set(key, next);
          return next;
        });
      return { draft, change, touched: held.has(key) };
    },
  };
}
