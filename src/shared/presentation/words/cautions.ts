/** A caution of the shop: what it is about, and what is done. */
export interface Caution {
  readonly about: string;
  readonly words: string;
}

/**
 * The usual cautions of the trade (common practice), as docs/cautions.md has them. They replace neither the maker's manual,
 * nor local rules, nor a qualified person's judgement.
 */
export const shopCautions: readonly Caution[] = [
  { about: 'Fingers and mesh', words: 'Nothing between the teeth while a gear can turn. By hand only, no power tool.' },
  { about: 'New teeth', words: 'The edges of new gears cut: gloves to carry them, none near turning teeth.' },
  { about: 'Weight', words: 'A case slides out suddenly: cap bolts in by a few turns until you hold it.' },
  { about: 'Under the vehicle', words: 'Engine off, key out, wheels chocked, rated stands on level ground.' },
  {
    about: 'Limited slip, locker or spool',
    words: 'Both wheels off the floor before anything turns: one wheel drives the other.',
  },
  { about: 'Case spreader', words: 'Indicator on the housing, no further than the manual allows, never left spread.' },
  { about: 'Ring gear', words: 'Never drawn on by its bolts: warm it evenly or press it, then the bolts crosswise.' },
  {
    about: 'Caps and adjusters',
    words: 'Never to full torque while the gears are jammed: back the ring gear away first.',
  },
  {
    about: 'Heat and press',
    words: 'No flame on gears or bearings. Guard and eye protection; brass on hardened steel.',
  },
  {
    about: 'Nuts under high torque',
    words: 'A holding tool, a firm stand; see which way the thread runs before you pull.',
  },
  { about: 'Solvents and dust', words: 'No petrol, fresh air, skin and eye protection.' },
];
