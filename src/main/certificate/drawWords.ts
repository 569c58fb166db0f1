import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import type { Issue } from './pdf.ts';
import type { Signature } from './signature.ts';

/** What a thread that draws is given: the same program gave it, so it is taken as it is. */
export interface DrawAsked {
  readonly issue: Issue;
  readonly look: CertificateLook;
  readonly signature: Signature;
  /** With pictures of the first so many pages, each so many pixels wide. */
  readonly pictures?: { readonly pixelsWide: number; readonly most: number } | undefined;
}

export interface DrawnApart {
  /** With noughts where the signature of the file goes. */
  readonly pdf: Uint8Array;
  readonly pages: number;
  readonly pictures: readonly Uint8Array[];
}

/** What it says: how far it has come, and at the end what it has drawn. */
export type WordFromDrawing = { readonly share: number } | { readonly drawn: DrawnApart };
