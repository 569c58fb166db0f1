import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { colourOf, figureFeatures, fontName, type Letters, onBaseline } from './letters.ts';

type Pdf = PDFKit.PDFDocument;
export type Struct = PDFKit.PDFStructureElement;

/** A strip of the page: the whole width, or what is left beside a picture. Points. */
export interface Strip {
  readonly x: number;
  readonly width: number;
}

/** A thin line across a strip. */
interface Rule extends Strip {
  readonly y: number;
  readonly ink?: 'faint' | 'line';
  readonly thick?: number;
}

/** ISO 216 A4 and ANSI A (letter), in points. */
const sizes: Readonly<Record<CertificateLook['page'], readonly [number, number]>> = {
  a4: [595.28, 841.89],
  letter: [612, 792],
};

const sides = 56;
/** Above and below, and the spaces between blocks. Closer where a few lines would otherwise stand on a last page of their own. */
const margins = { usual: { top: 50, bottom: 60, spaces: 1 }, close: { top: 38, bottom: 50, spaces: 0.6 } } as const;
export type Margins = keyof typeof margins;

interface Run {
  readonly words: string;
  readonly options: PDFKit.Mixins.TextOptions;
}

/**
 * Only words that begin as a figure does are set as figures, and their unit is not: in this family the feature
 * widens hyphens too, which is right in a column of figures and wrong in a word.
 */
function runsOf(words: string): readonly Run[] {
  if (!/^[\d−–±+]/u.test(words)) return [{ words, options: {} }];
  return words
    .split(/(in-lb|lb-ft)/u)
    .filter((part) => part !== '')
    .map((part) => ({ words: part, options: /^\p{L}/u.test(part) ? {} : { features: figureFeatures } }));
}

/** A number and its unit never stand on two lines. */
const numberAndUnit = /([\d.]) (mm|in|µm|N·m|N·cm|in-lb|lb-ft|%)(?![\p{L}])/gu;

/**
 * The pages and where the pen stands on them. It knows lines and page breaks and nothing of what is said.
 * Whatever carries meaning is drawn inside a structure element; rules and shapes are artifacts.
 */
export class Paper {
  readonly pdf: Pdf;
  readonly root: Struct;
  readonly left = sides;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
  readonly height: number;
  y: number;
  /** Set closer, because a few lines would otherwise stand on a page of their own. */
  readonly isClose: boolean;
  /** Whether a sign was met that the family lacks. */
  hasBoxes = false;
  private pages = 0;
  private ranOver: boolean | undefined;
  private readonly spaces: number;
  private readonly size: readonly [number, number];
  private readonly known = new Map<number, boolean>();
  private readonly widths = new Map<string, number>();

  constructor(pdf: Pdf, page: CertificateLook['page'], root: Struct, around: Margins = 'usual') {
    const { top, bottom, spaces } = margins[around];
    this.spaces = spaces;
    this.isClose = around === 'close';
    this.pdf = pdf;
    this.root = root;
    this.size = sizes[page];
    this.width = this.size[0] - 2 * sides;
    this.height = this.size[1];
    this.bottom = this.size[1] - bottom;
    this.top = top;
    this.y = top;
    this.newPage();
  }

  get right(): number {
    return this.left + this.width;
  }

  /** How much is left above the bottom margin. */
  get room(): number {
    return this.bottom - this.y;
  }

  newPage(): void {
    this.pdf.addPage({ size: [...this.size], margin: 0 });
    this.pages += 1;
    this.y = this.top;
  }

  /** Whether the last of several pages is all but empty. */
  get endsAlone(): boolean {
    return this.pages > 2 && this.y - this.top < (this.bottom - this.top) * 0.25;
  }

  get pageCount(): number {
    return this.pages;
  }

  /** Whether this page holds no more than what an earlier one had no room for. */
  get isRunOver(): boolean {
    return this.pages === 2 && this.y - this.top < (this.bottom - this.top) * 0.4;
  }

  /** Whether what belongs on the first page went over onto another. */
  get firstRanOver(): boolean {
    return this.ranOver === true;
  }

  /** What belongs on the first page is written. */
  endFirst(): void {
    this.ranOver ??= this.pages > 1;
  }

  get atTop(): boolean {
    return this.y <= this.top + 1;
  }

  /** Goes to a new page unless so much is left on this one. */
  need(height: number): void {
    if (this.room < height && !this.atTop) this.newPage();
  }

  space(height: number): void {
    if (!this.atTop) this.y += height * this.spaces;
  }

  /** A structure element with its content, in reading order. */
  tag(parent: Struct, type: string, options: PDFKit.Mixins.StructureElementOptions = {}): Struct {
    const struct = this.pdf.struct(type, options);
    parent.add(struct);
    return struct;
  }

  /** What is drawn but not read: rules, shapes beside their words, page furniture. */
  artifact(draw: () => void, type: 'Layout' | 'Pagination' = 'Layout'): void {
    this.pdf.markContent('Artifact', { type });
    draw();
    this.pdf.endMarkedContent();
  }

  rule({ x, y, width, ink = 'faint', thick = 0.6 }: Rule): void {
    this.artifact(() => {
      this.pdf
        .save()
        .moveTo(x, y)
        .lineTo(x + width, y)
        .lineWidth(thick)
        .stroke(colourOf(ink))
        .restore();
    });
  }

  /** One line with its top at `y`. */
  line(words: string, x: number, y: number, letters: Letters): void {
    this.set(letters);
    this.pdf.fillColor(colourOf(letters.ink));
    // Baselines share a place within the line, so that neighbours of different sizes stand on one.
    const baseline = y + letters.line / 2 + letters.size * 0.36;
    let at = x;
    for (const run of runsOf(words)) {
      this.pdf.text(run.words, at, baseline, { ...run.options, ...onBaseline });
      at += this.measureRun(run, letters);
    }
  }

  measure(words: string, letters: Letters): number {
    return runsOf(words).reduce((sum, run) => sum + this.measureRun(run, letters), 0);
  }

  /** Each run is laid out once and then remembered, as measured at 1000 points. */
  private measureRun({ words, options }: Run, letters: Letters): number {
    const key = `${letters.weight} ${options.features === undefined ? 'words' : 'figures'} ${words}`;
    const known = this.widths.get(key);
    if (known !== undefined) return (known * letters.size) / 1000;
    this.set({ ...letters, size: 1000 });
    const width = this.pdf.widthOfString(words, options);
    this.widths.set(key, width);
    this.set(letters);
    return (width * letters.size) / 1000;
  }

  private set({ size, weight }: Letters): void {
    this.pdf.font(fontName(weight)).fontSize(size);
  }

  /** Words broken into lines of at most this width; a word longer than a line is broken where it must be. */
  wrap(words: string, letters: Letters, width: number): readonly string[] {
    return this.printable(words)
      .replaceAll(numberAndUnit, '$1\u00a0$2')
      .split('\n')
      .flatMap((paragraph) => this.wrapOne(paragraph, letters, width));
  }

  private wrapOne(paragraph: string, letters: Letters, width: number): readonly string[] {
    if (this.measure(paragraph, letters) <= width) return [paragraph];
    const lines: string[] = [];
    let line = '';
    for (const word of paragraph.split(/[ \t]+/u)) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (this.measure(longer, letters) <= width) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      const pieces = this.broken(word, letters, width);
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1) ?? '';
    }
    return [...lines, line];
  }

  private broken(word: string, letters: Letters, width: number): readonly string[] {
    if (this.measure(word, letters) <= width) return [word];
    // A span breaks behind its dash, never within a number, and before its unit only where there is no other way.
    const dash = word.indexOf('–');
    if (dash > 0 && dash < word.length - 1) {
      const [first, rest] = [word.slice(0, dash + 1), word.slice(dash + 1)];
      return [...this.broken(first, letters, width), ...this.broken(rest, letters, width)];
    }
    if (word.includes('\u00a0')) return this.wrapOne(word.replaceAll('\u00a0', ' '), letters, width);
    const pieces: string[] = [];
    let piece = '';
    for (const sign of word) {
      if (piece !== '' && this.measure(piece + sign, letters) > width) {
        pieces.push(piece);
        piece = sign;
      } else piece += sign;
    }
    return [...pieces, piece];
  }

  /**
   * A sign that the family lacks becomes a box, which the foot of the page explains: the attached data have it as it was
   * typed. Writing from right to left has no letters here at all, and so is never set the wrong way round.
   */
  private printable(words: string): string {
    return Array.from(words.normalize('NFC').replaceAll('\r\n', '\n'), (sign) => {
      if (sign === '\n' || this.hasGlyph(sign)) return sign;
      if (sign === '\t') return ' ';
      this.hasBoxes = true;
      return '□';
    }).join('');
  }

  private hasGlyph(sign: string): boolean {
    const code = sign.codePointAt(0) ?? 0;
    const found = this.known.get(code);
    if (found !== undefined) return found;
    this.pdf.font(fontName(400));
    const has = hasFont(this.pdf) && this.pdf._font.font.hasGlyphForCodePoint(code);
    this.known.set(code, has);
    return has;
  }
}

/** The font in use, which the library's types keep to themselves. */
interface WithFont {
  readonly _font: { readonly font: { hasGlyphForCodePoint(code: number): boolean } };
}

const hasFont = (pdf: object): pdf is WithFont => '_font' in pdf;
