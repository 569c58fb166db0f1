import type { LinkDraft, LinkErrors } from './linkDraft.ts';

/** What the fields of a part of a link are given; a change speaks only of what is changed. */
export interface LinkFieldsProps {
  readonly draft: LinkDraft;
  readonly errors: LinkErrors;
  readonly onChange: (change: Partial<LinkDraft>) => void;
}
