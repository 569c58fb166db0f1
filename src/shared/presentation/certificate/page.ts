import type { Scene, SceneSize } from '../drawing/scene.ts';
import type { Logo } from '../../job/certifying/certificateData.ts';
import type { UnitSystem } from '../../basics/show.ts';
import type { Shape } from '../words/standing.ts';

/** For whom a certificate is drawn: the paper and the units. What was measured never changes with it. */
export interface CertificateLook {
  readonly page: 'a4' | 'letter';
  readonly units: UnitSystem;
  /** With every assembly told in full behind the usual pages. */
  readonly everything?: boolean;
}

/**
 * A certificate as blocks in reading order, before it has pages: what it says, free of how paper is filled.
 * Whatever writes it down (main/certificate) breaks the lines and the pages.
 */
export type Block =
  | HeadingBlock
  | WordsBlock
  | ListBlock
  | TableBlock
  | FiguresBlock
  | PictureBlock
  | BesideBlock
  | VerdictBlock
  | TitleBlock
  | PicturesBlock
  | PhotosBlock
  | SignatureBlock
  | PageBlock;

export interface TitleBlock {
  readonly kind: 'title';
  /** Above it, small: whose paper it is at the left, which one at the right. */
  readonly left: readonly string[];
  readonly right: readonly string[];
  /** Stands before the words at the left. */
  readonly logo?: Logo;
  readonly words: string;
  /** Quiet lines beneath: who, when. */
  readonly under: readonly string[];
}

export interface HeadingBlock {
  readonly kind: 'heading';
  readonly level: 2 | 3;
  readonly words: string;
  /** Facts that go with it, quiet, on a line of their own. */
  readonly under?: string;
}

export interface WordsBlock {
  readonly kind: 'words';
  readonly words: string;
  readonly tone: 'plain' | 'quiet' | 'code';
}

export interface ListBlock {
  readonly kind: 'list';
  readonly items: readonly string[];
  /** Set small and grey: what must be there and is not looked for. */
  readonly quiet?: boolean;
  /** What stands before an item in place of its dash. */
  readonly mark?: (index: number) => string;
}

/** Complete or incomplete, and what is missing. */
export interface VerdictBlock {
  readonly kind: 'verdict';
  readonly complete: boolean;
  readonly words: string;
  readonly under: string;
  readonly missing: readonly string[];
  /** How far the certificate reaches, in small print where nobody misses it. */
  readonly reach: string;
}

export interface Cell {
  readonly text: string;
  /** A second, quiet line. */
  readonly under?: string;
  /** The shape of a state before the words, which then take its ink. */
  readonly shape?: Shape;
}

export interface Column {
  readonly head: string;
  readonly align: 'left' | 'right';
  /** Share of the room left over; 0 keeps the column as narrow as its words. */
  readonly grow: number;
}

export interface TableBlock {
  readonly kind: 'table';
  readonly columns: readonly Column[];
  /** The first cell of a row names it. */
  readonly rows: readonly (readonly Cell[])[];
}

/** A few figures set large, each with its state. */
export interface FiguresBlock {
  readonly kind: 'figures';
  /** Beside each other in so many columns; one where it is not given. */
  readonly columns?: number;
  readonly figures: readonly Figure[];
}

export interface Figure {
  readonly name: string;
  /** Empty where nothing was measured. */
  readonly value: string;
  readonly shape: Shape;
  readonly standing: string;
  readonly limit: string;
  /** A further figure of the same reading, on a line of its own. */
  readonly more?: string;
}

export interface PictureBlock {
  readonly kind: 'picture';
  /** Height as a share of the width it is given. */
  readonly share: number;
  /** The same on pages that are set closer; as usual where it is not given. */
  readonly closeShare?: number;
  readonly draw: (size: SceneSize) => Scene;
  /** Share of the width it is drawn in; all of it where it is not given. */
  readonly across?: number;
  readonly caption?: string;
}

/** Pictures of one shape, so many beside each other, each with its words beneath. */
export interface PicturesBlock {
  readonly kind: 'pictures';
  readonly across: number;
  readonly pictures: readonly PictureBlock[];
}

/** Photos as they are kept, by their hashes; whoever writes them down knows where they lie. */
export interface PhotosBlock {
  readonly kind: 'photos';
  readonly photos: readonly PhotoBlock[];
}

export interface PhotoBlock {
  readonly sha256: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  readonly caption: string;
}

/** Lines to be signed and dated by hand. */
export interface SignatureBlock {
  readonly kind: 'signature';
  readonly fields: readonly string[];
}

/** A picture with what belongs to it at its right. */
export interface BesideBlock {
  readonly kind: 'beside';
  readonly picture: PictureBlock;
  /** Share of the width that the picture takes. */
  readonly share: number;
  readonly right: readonly (FiguresBlock | TableBlock | WordsBlock | HeadingBlock)[];
}

/** What follows begins on a new page. */
interface PageBlock {
  readonly kind: 'page';
}

export const heading = (level: 2 | 3, words: string, under?: string): HeadingBlock => ({
  kind: 'heading',
  level,
  words,
  ...(under === undefined ? {} : { under }),
});

export const words = (text: string, tone: WordsBlock['tone'] = 'plain'): WordsBlock => ({
  kind: 'words',
  words: text,
  tone,
});

export const list = (items: readonly string[], more: Pick<ListBlock, 'mark' | 'quiet'> = {}): readonly Block[] =>
  items.length === 0 ? [] : [{ kind: 'list', items, ...more }];

export const cell = (text: string, more: Omit<Cell, 'text'> = {}): Cell => ({ text, ...more });

/** A column of words. */
export const wordColumn = (head: string, grow = 1): Column => ({ head, align: 'left', grow });

/** A column of figures of one unit, aligned by their last digit. */
export const figureColumn = (head: string, grow = 0): Column => ({ head, align: 'right', grow });
