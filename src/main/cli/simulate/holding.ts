import { linkText, parseLink } from '../../../shared/gauges/link.ts';
import type { ModbusLink } from '../../../shared/gauges/modbus/modbusLink.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { type GaugeKind, unitsOf, usual } from './writing.ts';

/** How a simulated gauge has to be made and hold its reading, so that a given Modbus link reads it. */
export interface GaugeHolding {
  /** With a path that is nobody's: the pseudo-terminal is not there yet. */
  readonly link: ModbusLink;
  readonly unit: (typeof unitsOf)[GaugeKind][0];
  readonly resolution: number;
  readonly modbus: RegistersFor;
}

/** How its registers lie, in the words of the simulated gauges, which share no code with the bench. */
interface RegistersFor extends Pick<ModbusLink, 'unit' | 'register' | 'function' | 'type'> {
  readonly lowFirst: boolean;
  readonly step: number;
}

/** The largest whole number of each type. */
const largest: Readonly<Record<ModbusLink['type'], number>> = {
  s16: 2 ** 15 - 1,
  u16: 2 ** 16 - 1,
  s32: 2 ** 31 - 1,
  u32: 2 ** 32 - 1,
  f32: Infinity,
};

/**
 * The options are those of a link (`unit=1&register=0&scale=0.001`): the same ones read what is held.
 * @param reach how far the simulated gauge reads either way.
 */
export function holdingFor(options: string, kind: GaugeKind, reach: number): Result<GaugeHolding> {
  const unit = unitsOf[kind][0];
  const lastPlace = Number(`1e-${usual[unit].decimals}`);
  const link = parseLink(`modbus:-?${options === 'auto' ? `type=s32&scale=${lastPlace}` : options}`);
  if (!link.ok) return link;
  if (link.value.kind !== 'modbus')
    return fail(wrongOption('link', 'It is no Modbus link', 'Write it like unit=1&register=0.'));
  const { register, type, order, scale } = link.value;
  if (type.startsWith('u'))
    return fail(wrongOption('type', 'A simulated gauge reads below zero too', 'Use s16, s32 or f32.'));
  const most = largest[type] * scale;
  if (most < reach) return fail(tooSmall(type, most, `${kind} gauge reads up to ${reach}`));
  return ok({
    link: link.value,
    unit,
    resolution: type === 'f32' ? lastPlace : scale,
    modbus: {
      unit: link.value.unit,
      register,
      function: link.value.function,
      type,
      lowFirst: order === 'low-first',
      step: scale,
    },
  });
}

/** The link by which the gauge is read, once it has its pseudo-terminal. */
export function linkTo({ link }: GaugeHolding, served: string): string {
  const at = parseLink(served);
  return linkText(at.ok && at.value.kind === 'serial' ? { ...link, path: at.value.path } : link);
}

const wrongOption = (field: string, what: string, remedy: string): Problem => ({
  kind: 'wrong-option',
  field,
  sentence: `${what}.`,
  remedy,
});

const tooSmall = (type: string, most: number, gauge: string): Problem =>
  wrongOption(
    'scale',
    `${type} at this scale ends at ${Number(most.toPrecision(6))}, and a simulated ${gauge}`,
    'Use type=s32, or a larger scale.',
  );
