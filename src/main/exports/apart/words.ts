import type { Result } from '../../../shared/basics/result.ts';
import type { Notebook } from '../../../shared/job/records/notebook.ts';
import type { CertificateLook } from '../../../shared/presentation/certificate/page.ts';
import type { SlipWanted } from '../../../shared/presentation/certificate/slips.ts';
import type { ExportForm } from '../exportFiles.ts';

/** What is made of a build. The same program asks and answers, so it is taken as it is. */
export type Wanted =
  /** The certificate, signed, as a file. */
  | { readonly make: 'certificate' }
  /** Its first so many pages as pictures, each so many pixels wide; the paper they show is not signed. */
  | {
      readonly make: 'pictures';
      readonly pixelsWide: number;
      readonly most: number;
      /** Of this small paper, in place of the certificate. */
      readonly slip?: SlipWanted | undefined;
    }
  /** The build in a form for elsewhere, its photos beside it where they are asked for. */
  | { readonly make: 'files'; readonly form: ExportForm; readonly photos: boolean };

/** What a thread that makes papers and exports is given: it reads the rest from the data folder itself. */
export interface PaperAsked {
  readonly folder: string;
  readonly notebook: Notebook;
  readonly look: CertificateLook;
  readonly wanted: Wanted;
}

interface FileMade {
  readonly name: string;
  readonly bytes: Uint8Array | string;
}

/** What a certificate says of itself. */
export interface CertificateTold {
  readonly sha256: string;
  readonly complete: boolean;
  readonly missing: readonly string[];
}

export interface MadeOf {
  certificate: { readonly file: FileMade; readonly told: CertificateTold };
  pictures: { readonly pages: number; readonly pictures: readonly Uint8Array[] };
  files: readonly FileMade[];
}
export type Making = keyof MadeOf;

/** What it says: how far it has come, and at the end what it has made. */
export type WordFromPaper<M extends Making = Making> =
  | { readonly share: number }
  | { readonly made: Result<MadeOf[M]> };
