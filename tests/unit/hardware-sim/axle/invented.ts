import { drawBlank } from '../../../../hardware-sim/axle/mesh/blank.ts';
import { layFrame } from '../../../../hardware-sim/axle/mesh/flankFrame.ts';
import type { GearSetSpec } from '../../../../hardware-sim/axle/mesh/gearSet.ts';
import type { EaseOff } from '../../../../hardware-sim/axle/mesh/pinionFlank.ts';
import type { Cut } from '../../../../hardware-sim/axle/mesh/ringFlank.ts';

export const degrees = (value: number): number => (value * Math.PI) / 180;

export const MILLED: Cut = { kind: 'face-milled', rootTilt_rad: degrees(4.5) };
export const HOBBED: Cut = { kind: 'face-hobbed', bladeGroups: 17 };

/** An invented 12/43 set of round dimensions: a spiral bevel without offset, a hypoid with it. */
export function inventedSet(offset_mm: number, cut: Cut, easeOff?: EaseOff): GearSetSpec {
  const even: EaseOff = { lengthwise: 1.6e-4, bias: 0, profile: 1.2e-3, apex: { heel: 0, crown: 0 } };
  return {
    pinionTeeth: 12,
    ringTeeth: 43,
    outerDiameter_mm: 210,
    faceWidth_mm: 31,
    offset_mm,
    pinionSpiral_rad: degrees(offset_mm === 0 ? 35 : 46),
    cutterRadius_mm: cut.kind === 'face-milled' ? 105 : 84,
    cut,
    pressure_rad: degrees(20),
    easeOff: { convex: easeOff ?? even, concave: easeOff ?? even },
    backlash_mm: 0.2,
  };
}

/** The same set with its ease-off's apex lifted to the pitch line, where the closed formulas are drawn. */
export function setAtPitchLine(offset_mm: number, cut: Cut, lengthwise = 1.6e-4, profile = 1.2e-3): GearSetSpec {
  const plain = inventedSet(offset_mm, cut);
  const frame = layFrame(drawBlank(plain), cut);
  const apex = { heel: 0, crown: -frame.middleAt(0) / frame.height_mm };
  return inventedSet(offset_mm, cut, { lengthwise, bias: 0, profile, apex });
}
