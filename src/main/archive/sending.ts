/** A stretch of readings on its way: named by bench, gauge and rows, held by the hash of its lines. */
export interface SentStretch {
  readonly bench: string;
  readonly gauge: string;
  readonly from: number;
  readonly to: number;
  readonly rows: number;
  readonly sha256: Buffer;
  readonly body: Buffer;
}

/** An entry of a notebook on its way, with what it rests on. */
export interface SentEntry {
  readonly line: number;
  readonly id: string;
  readonly build: string;
  readonly sha256: Buffer;
  readonly wrote: string | null;
  readonly place: number;
  readonly body: Buffer;
  readonly stretch: SentStretch | undefined;
  readonly photo:
    | {
        readonly sha256: Buffer;
        readonly width: number;
        readonly height: number;
        readonly at: string;
        readonly jpeg: Buffer;
      }
    | undefined;
  readonly certificate: { readonly sha256: Buffer; readonly name: string; readonly pdf: Buffer } | undefined;
}

/** What the list says of a build. */
export interface SentSummary {
  readonly build: string;
  /** So many entries it was made from. */
  readonly entries: number;
  /** A {@link BuildSummary} as JSON. */
  readonly record: string;
  /** What the list shows of it, folded: where a misspelt word is looked for. */
  readonly heading: string;
  /** Everything typed into it, folded. */
  readonly words: string;
}

/** What goes in one transaction. */
export interface Load {
  readonly entries: readonly SentEntry[];
  readonly summaries: readonly SentSummary[];
}

export const bytesOf = ({ body, stretch, photo, certificate }: SentEntry): number =>
  body.length + (stretch?.body.length ?? 0) + (photo?.jpeg.length ?? 0) + (certificate?.pdf.length ?? 0);
