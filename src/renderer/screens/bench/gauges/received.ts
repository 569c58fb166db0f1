import { decimalsWritten } from '../../../../shared/basics/show.ts';
import { symbolOf } from '../../../parts/quantity.ts';

interface Received {
  readonly value: number;
  /** UCUM; '' where the line has none. */
  readonly unit: string;
}

/**
 * Received values with the decimals the gauge sends: 1.23 beside 1.231 is 1.230. A number alone does not say how many noughts
 * it ended in; the finest of its neighbours in the same unit does, or the gauge's step.
 * @param step of the gauge's display, where its record says one
 */
export function receivedWords(step?: Received): (line: Received, among: readonly Received[]) => string {
  return ({ value, unit }, among) => {
    const alike = [...among, ...(step === undefined ? [] : [step])].filter((one) => one.unit === unit);
    const decimals = Math.max(0, ...[value, ...alike.map((one) => one.value)].map(decimalsWritten));
    // More than a gauge can send is the mark of an exponent: that is shown as it came.
    const digits = decimals > mostDecimals ? String(value) : value.toFixed(decimals);
    return `${digits.replace('-', '−')} ${unit === '' ? '(no unit sent)' : symbolOf(unit)}`;
  };
}

const mostDecimals = 7;
