import { seeded, type Random } from '../seeded.ts';
import type { Assembled } from './assembled.ts';
import { breakawayFactor, caseDrag, pinionDrag, type BearingSpec, type PinionSetting } from './bearings.ts';
import { heelRadius } from './mesh/blank.ts';
import { cutGearSet, type GearSet, type GearSetSpec } from './mesh/gearSet.ts';
import { mesh, type Mesh } from './mesh/mesh.ts';
import { describeMark } from './mesh/mark.ts';
import type { EaseOff } from './mesh/pinionFlank.ts';
import { rollThroughMesh, type PaintedFlank } from './mesh/paint.ts';
import type { FlankName } from './mesh/ringFlank.ts';
import { positionOf, squeeze, type Fit, type Shims } from './shims.ts';
import { bodyAt, surfaceAt, waveAt, type Wave, type Wobble } from './wobble.ts';

/** How the teeth themselves are off their places, as backlash at the heel, mm. */
interface GearCutError {
  readonly once: Wave;
  /** Standard deviation from tooth to tooth, mm. */
  readonly tooth_mm: number;
}

/** An invented axle: everything about it that no technician can read off. */
export interface AxleSpec {
  readonly gears: GearSetSpec;
  readonly driveFlank: FlankName;
  readonly fit: Fit;
  /** Standard deviation of the right packs from one axle of this kind to the next, mm. */
  readonly fitScatter_mm: { readonly head: number; readonly side: number };
  /** Cutting error: standard deviation of each ease-off's apex, as fractions of face and visible height. */
  readonly apexScatter: { readonly heel: number; readonly crown: number };
  /** Case flange, gear off. */
  readonly flange: Wobble;
  /** What the ring gear's own back face adds to the flange it is bolted to. */
  readonly backFace: Wobble;
  /** Radius of the back face where the indicator rides, mm. */
  readonly backFaceRadius_mm: number;
  /** Where that indicator sits, from the mesh, clockwise looking at the teeth. */
  readonly backFaceFromMesh_rad: number;
  readonly gearCut: GearCutError;
  readonly bearings: BearingSpec;
}

/** One way of putting the axle together. */
export interface Assembly extends PinionSetting {
  readonly shims: Shims;
  /** Worn off the case bearings together, mm: less preload, and the ring gear pushed away. */
  readonly caseWear_mm?: number;
  /** Worn off the teeth, as backlash at the heel, mm. */
  readonly toothWear_mm?: number;
}

/** An axle on the stand. */
export interface Axle {
  readonly spec: AxleSpec;
  readonly gears: GearSet;
  /** The packs that put this very axle right; known to the twin alone. */
  readonly fit: Fit;
  assemble(assembly: Assembly): Assembled;
}

/** Makes one axle of a kind: its gears are cut, its housing bored, its runout and tooth errors drawn from the seed. */
export function createAxle(spec: AxleSpec, seed: number): Axle {
  const random = seeded(seed);
  const fit = scatterFit(spec, random);
  const gears = cutGearSet(scatterCut(spec, random));
  const teeth = Float64Array.from({ length: spec.gears.ringTeeth }, () => random.normal(0, spec.gearCut.tooth_mm));
  return { spec, gears, fit, assemble: (assembly) => assembleAxle({ spec, gears, fit, teeth }, assembly) };
}

function scatterFit({ fit, fitScatter_mm }: AxleSpec, random: Random): Fit {
  const side = random.normal(0, fitScatter_mm.side);
  const right = {
    head_mm: fit.right.head_mm + random.normal(0, fitScatter_mm.head),
    ringSide_mm: fit.right.ringSide_mm + side,
    otherSide_mm: fit.right.otherSide_mm - side,
  };
  return { right, zeroPlay_mm: fit.zeroPlay_mm };
}

function scatterCut({ gears, apexScatter }: AxleSpec, random: Random): GearSetSpec {
  const off = (easeOff: EaseOff): EaseOff => ({
    ...easeOff,
    apex: {
      heel: easeOff.apex.heel + random.normal(0, apexScatter.heel),
      crown: easeOff.apex.crown + random.normal(0, apexScatter.crown),
    },
  });
  return { ...gears, easeOff: { convex: off(gears.easeOff.convex), concave: off(gears.easeOff.concave) } };
}

interface Parts {
  readonly spec: AxleSpec;
  readonly gears: GearSet;
  readonly fit: Fit;
  readonly teeth: Float64Array;
}

function assembleAxle(parts: Parts, assembly: Assembly): Assembled {
  const { spec, gears, fit } = parts;
  const wear = assembly.caseWear_mm ?? 0;
  const squeezed = squeeze(assembly.shims, fit, wear);
  const position = positionOf(assembly.shims, fit, wear);
  const at = (away: number): Mesh => mesh(gears, { ...position, ringAway_mm: position.ringAway_mm + away });
  const home = once(() => at(0));
  const marked = once(() => ({ convex: rollThroughMesh(home().convex), concave: rollThroughMesh(home().concave) }));
  const backlash = backlashRoundGear(parts, assembly.toothWear_mm ?? 0, (away) =>
    away === 0 ? home().backlash_mm : at(away).backlash_mm,
  );
  const pinion = pinionDrag(spec.bearings, assembly);
  const aroundPinion = (angle: number) => pinion * (1 + spec.bearings.ripple * Math.cos(angle));
  const fromCase = caseDrag(spec.bearings, assembly, squeezed) / gears.blank.ratio;
  const aroundCase = (angle: number) => fromCase * (1 + spec.bearings.ripple * Math.cos(angle / gears.blank.ratio));
  const describe = (flank: PaintedFlank, film_um: number) => describeMark(flank, gears.frame, film_um / 1000);
  return {
    teeth: { pinion: spec.gears.pinionTeeth, ring: spec.gears.ringTeeth },
    heelRadius_mm: heelRadius(gears.blank),
    backlashAt: (angle) => backlash()(angle),
    backFaceAt: (angle) => surfaceAt(spec.flange, angle + spec.backFaceFromMesh_rad) + backFaceAlone(spec, angle),
    flangeAt: (angle) => surfaceAt(spec.flange, angle + spec.backFaceFromMesh_rad),
    pinionDragAt: aroundPinion,
    totalDragAt: (angle) => aroundPinion(angle) + aroundCase(angle) + spec.bearings.mesh_Nm,
    breakawayFactor: breakawayFactor(assembly),
    endPlay_mm: Math.max(0, -squeezed),
    painted: marked,
    paint: (film_um) => ({
      convex: describe(marked().convex, film_um),
      concave: describe(marked().concave, film_um),
    }),
  };
}

const backFaceAlone = (spec: AxleSpec, angle: number): number =>
  surfaceAt(spec.backFace, angle + spec.backFaceFromMesh_rad);

/** Worked out when first asked for, and kept: bringing gears together takes milliseconds. */
function once<T>(make: () => T): () => T {
  let kept: { readonly value: T } | undefined;
  return () => (kept ??= { value: make() }).value;
}

/**
 * Backlash tooth by tooth: the tooth in mesh stands away by the wobble of the gear's body there, through the mesh's
 * own answer to that, and its cutting adds its own. A mesh without free movement left reads 0.
 */
function backlashRoundGear(parts: Parts, wear: number, at: (away: number) => number): () => (angle: number) => number {
  const { spec, gears, teeth } = parts;
  const reach = gears.blank.ringMeanRadius_mm / spec.backFaceRadius_mm;
  const away = (angle: number) => reach * (bodyAt(spec.flange, angle) + bodyAt(spec.backFace, angle));
  const pitch = (2 * Math.PI) / teeth.length;
  return once(() => {
    const span = Math.max(0.01, ...Array.from(teeth, (_, n) => Math.abs(away(n * pitch))));
    const [closer, home, farther] = [at(-span), at(0), at(span)];
    const [slope, bend] = [(farther - closer) / (2 * span), (farther - 2 * home + closer) / span ** 2];
    return (angle) => {
      const x = away(angle);
      const tooth = ((Math.round(angle / pitch) % teeth.length) + teeth.length) % teeth.length;
      const cut = waveAt(spec.gearCut.once, 1, angle) + (teeth[tooth] ?? 0);
      return Math.max(0, home + slope * x + 0.5 * bend * x * x + cut + wear);
    };
  });
}
