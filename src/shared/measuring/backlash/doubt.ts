import {
  rectangular,
  repeatability,
  resolutionOfDifference,
  type UncertaintyPart,
} from '../uncertainty/uncertainty.ts';
import type { BacklashSettings } from './measured.ts';

/**
 * The parts of a station's uncertainty.
 *
 * - resolution: difference of two rounded readings, δ/√6;
 * - gauge: the stated standard uncertainty is that of one reading; the two rests lie at two places of the scale, whose
 *   errors are taken as independent: √2·u. (Errors of near places are partly alike, so this is rather too much.);
 * - hysteresis: the two rests are approached from opposite ways, so the whole stated width h may be missing from the
 *   difference or none of it. It is not corrected for, so the part is the root mean square of 0…h: h/√3;
 * - rocks: standard deviation of their mean, with n − 1 degrees of freedom.
 */
export function partsOf(settings: BacklashSettings, sd: number, rocks: number): readonly UncertaintyPart[] {
  return [
    { name: 'resolution', u: resolutionOfDifference(settings.resolution) },
    ...(settings.gaugeU === undefined ? [] : [{ name: 'gauge', u: Math.SQRT2 * settings.gaugeU }]),
    ...(settings.hysteresis === undefined ? [] : [{ name: 'hysteresis', u: rectangular(settings.hysteresis) }]),
    repeatability('rocks', sd, rocks),
  ];
}
