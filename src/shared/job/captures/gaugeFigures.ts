import { rectangular } from '../../measuring/uncertainty/uncertainty.ts';
import { type Length, mm, newtonMetres, type Torque } from '../../basics/quantity.ts';
import { insideOf } from '../../basics/recorded.ts';
import type { GaugeSeen } from '../records/gauge.ts';
import { armDoubt, figureInside } from './torqueScale.ts';

/** What measuring needs to know of a gauge, in the units used inside. */
interface GaugeFigures {
  readonly length: { readonly resolution: Length; readonly gaugeU?: Length; readonly hysteresis?: Length };
  readonly torque: {
    readonly resolution: Torque;
    readonly gaugeU?: Torque;
    readonly gaugeU_share?: number;
    readonly armU_share?: number;
  };
}

/**
 * A stated error is a bound (±): the truth lies anywhere within it with equal right, so its standard
 * uncertainty is the half-width over √3 (GUM 4.3.7). Hysteresis is handed on as it is.
 */
export function gaugeFigures(gauge: GaugeSeen): GaugeFigures {
  const resolution = figureInside(gauge.resolution, gauge);
  const error = gauge.statedError === undefined ? undefined : rectangular(figureInside(gauge.statedError, gauge));
  const share = gauge.statedError_percent === undefined ? undefined : rectangular(gauge.statedError_percent / 100);
  const arm = armDoubt(gauge);
  return {
    length: {
      resolution: mm(resolution),
      ...(error === undefined ? {} : { gaugeU: mm(error) }),
      ...(gauge.hysteresis === undefined ? {} : { hysteresis: mm(insideOf(gauge.hysteresis)) }),
    },
    torque: {
      resolution: newtonMetres(resolution),
      ...(error === undefined ? {} : { gaugeU: newtonMetres(error) }),
      ...(share === undefined ? {} : { gaugeU_share: share }),
      ...(arm === undefined ? {} : { armU_share: arm }),
    },
  };
}
