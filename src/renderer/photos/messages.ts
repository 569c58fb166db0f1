import type { Bends, Depth } from '../../shared/axle/mark/flankMap.ts';
import type { MarkWithArea } from '../../shared/axle/mark/describeMask.ts';
import type { FlankCorners } from '../../shared/axle/mark/photo.ts';
import type { BrushTouch } from '../../shared/axle/mark/brush.ts';
import type { Result } from '../../shared/basics/result.ts';

/** What the page asks of the worker that handles photos. */
export type WorkerAsk =
  | { readonly do: 'shrink'; readonly file: Blob }
  | { readonly do: 'open'; readonly jpeg: Blob }
  | ({ readonly do: 'read' } & ReadAsk);

export interface ReadAsk {
  readonly corners: FlankCorners;
  /** Edges bent by hand; without them they are looked for. */
  readonly bends?: Bends | undefined;
  /** Whether the tooth is as high at the toe as at the heel, where the build knows its cut. */
  readonly depth?: Depth | undefined;
  readonly brushed: readonly BrushTouch[];
  /** Whether the brush begins on an empty flank: what a machine reads in it is not looked at. */
  readonly fromEmpty: boolean;
}

/** A photo made small enough to be stored, as a JPEG that holds nothing but its picture. */
export interface Shrunk {
  readonly jpeg: Blob;
  readonly width: number;
  readonly height: number;
}

/** The flank laid straight, eight bits a channel, toe at the left and crown above. */
export interface StraightPicture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

/** What was read, or why nothing was; the straight flank is shown either way where the corners go round one. */
export interface ReadAnswer {
  readonly straight: StraightPicture | undefined;
  readonly result: Result<ReadMark>;
  /** How long reading took, in milliseconds. */
  readonly took_ms: number;
}

export interface ReadMark {
  readonly mark: MarkWithArea;
  readonly warnings: readonly string[];
  readonly bends: Bends;
  /** 1 where the mark is; columns from toe to heel, rows from root to crown. */
  readonly mask: { readonly columns: number; readonly rows: number; readonly cells: Uint8Array };
}

export interface WorkerAnswers {
  readonly shrink: Result<Shrunk>;
  readonly open: Result<{ readonly width: number; readonly height: number }>;
  readonly read: ReadAnswer;
}
