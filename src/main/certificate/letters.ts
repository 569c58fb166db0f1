import { createRequire } from 'node:module';
import { type Ink, palettes } from '../../shared/presentation/drawing/inks.ts';
import type { Weight } from '../../shared/presentation/drawing/scene.ts';

/** How words are set. Sizes are points; `line` is the distance from one line to the next. */
export interface Letters {
  readonly size: number;
  readonly weight: Weight;
  readonly ink: Ink;
  readonly line: number;
}

const letters = (size: number, weight: Weight, ink: Ink, line = size * 1.42): Letters => ({ size, weight, ink, line });

/** The type scale of the certificate: few sizes, told apart by weight and ink before size. */
export const scale = {
  title: letters(22, 600, 'text', 28),
  longTitle: letters(15, 600, 'text', 20),
  verdict: letters(13, 600, 'text', 18),
  section: letters(13, 600, 'text', 18),
  part: letters(9.5, 600, 'text', 14),
  body: letters(9, 400, 'text', 13.2),
  quiet: letters(8, 400, 'quiet', 11.8),
  code: letters(8, 500, 'text', 12),
  head: letters(7.5, 500, 'quiet', 10.4),
  cell: letters(8.5, 400, 'text', 12),
  cellName: letters(8.5, 500, 'text', 12),
  cellUnder: letters(7.2, 400, 'quiet', 10),
  figure: letters(13.5, 600, 'text', 17),
  footer: letters(7, 400, 'quiet', 10),
} as const satisfies Record<string, Letters>;

const require = createRequire(import.meta.url);

/** The family's files; the licence (OFL 1.1) lies beside them in their package. */
export const fontFiles: Readonly<Record<Weight, string>> = {
  400: require.resolve('@expo-google-fonts/inter/400Regular/Inter_400Regular.ttf'),
  500: require.resolve('@expo-google-fonts/inter/500Medium/Inter_500Medium.ttf'),
  600: require.resolve('@expo-google-fonts/inter/600SemiBold/Inter_600SemiBold.ttf'),
  700: require.resolve('@expo-google-fonts/inter/700Bold/Inter_700Bold.ttf'),
};

export const fontName = (weight: Weight): string => `Inter-${weight}`;

/** A certificate is for white paper. */
export const colourOf = (ink: Ink): string => palettes.print[ink];

/**
 * Digits of one width, so that figures stand under each other. Contextual forms are left out: figures have none,
 * and trying them takes most of the time. The library takes names with yes and no, which its types do not know.
 */
const named: object = { tnum: true, calt: false };
export const figureFeatures = named as PDFKit.Mixins.OpenTypeFeatures[];

/** One line from its baseline. The width is given so that the library does not lay the words out a second time for it. */
export const onBaseline: PDFKit.Mixins.TextOptions = {
  lineBreak: false,
  baseline: 'alphabetic',
  ...({ textWidth: 0, wordCount: 0 } as object),
};
