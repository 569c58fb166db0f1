import { z } from 'zod';
import { fail, ok, type Result } from '../../basics/result.ts';

/**
 * Curvatures of the ease-off (1/mm) in ½(a u² + 2b uv + c v²), u to the heel, v to the crown. Both principal
 * curvatures must be positive: a pair that is nowhere relieved has no mark of its own to predict.
 */
const easeoffSchema = z
  .strictObject({ a: z.number().positive(), b: z.number(), c: z.number().positive() })
  .refine(({ a, b, c }) => a * c > b * b, { message: 'a·c must be larger than b²', path: ['b'] });

/** What can be read off a gear set (docs/command-line.md, `predict`). Unknown keys are refused: a misspelt offset must not pass as 0. */
export const setInputSchema = z.strictObject({
  pinionTeeth: z.int().min(4).max(60),
  ringTeeth: z.int().min(12).max(150),
  outerDiameter_mm: z.number().min(40).max(1500),
  faceWidth_mm: z.number().positive().max(400).optional(),
  offset_mm: z.number().min(0).max(300).optional(),
  pinionSpiral_deg: z.number().min(0).max(65).optional(),
  pressureAngle_deg: z.number().min(10).max(30).optional(),
  cut: z.enum(['face-milled', 'face-hobbed', 'not-known']).optional(),
  cutterRadius_mm: z.number().positive().max(1000).optional(),
  bladeGroups: z.int().min(3).max(60).optional(),
  rootTilt_deg: z.number().min(0).max(12).optional(),
  flankHeight_mm: z.number().positive().max(80).optional(),
  easeoff: z.strictObject({ convex: easeoffSchema, concave: easeoffSchema }).optional(),
});

export type SetInput = Readonly<z.infer<typeof setInputSchema>>;

/**
 * A set as it comes over a boundary.
 * @returns the checked set, or a Problem of kind `wrong-set` that names the first wrong field.
 */
export function checkSetInput(raw: unknown): Result<SetInput, 'wrong-set'> {
  const checked = setInputSchema.safeParse(raw);
  if (!checked.success) return wrongField(checked.error.issues[0]);
  return unlikely(checked.data) ?? ok(checked.data);
}

function wrongField(issue: z.core.$ZodIssue | undefined): Result<never, 'wrong-set'> {
  const stray = issue?.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const field = [...(issue?.path ?? []), ...stray].join('.') || 'set';
  return wrong(field, issue?.message ?? 'not a gear set');
}

/** Relations between fields that make a blank impossible, however plausible each field is alone. */
function unlikely(set: SetInput): Result<never, 'wrong-set'> | undefined {
  if (set.ringTeeth <= set.pinionTeeth) return wrong('ringTeeth', 'the ring gear must have more teeth than the pinion');
  if ((set.faceWidth_mm ?? 0) > 0.4 * set.outerDiameter_mm) {
    return wrong('faceWidth_mm', 'more than 0.4 of the outer diameter');
  }
  if ((set.offset_mm ?? 0) > 0.4 * set.outerDiameter_mm) {
    return wrong('offset_mm', 'more than 0.4 of the outer diameter');
  }
  if (set.cut === 'face-hobbed' && (set.rootTilt_deg ?? 0) !== 0) {
    return wrong('rootTilt_deg', 'a face-hobbed tooth has the same depth from toe to heel, so its root tilt is 0');
  }
  return undefined;
}

const wrong = (field: string, why: string): Result<never, 'wrong-set'> =>
  fail({
    kind: 'wrong-set',
    field,
    sentence: `${field}: ${why}.`,
    remedy: `Check ${field} against the gear set and the units in its name.`,
  });
