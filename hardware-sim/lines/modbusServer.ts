/** A gauge's end of a line on which it is asked for its registers. Its own tables and arithmetic, not the bench's. */
export interface ModbusServed {
  readonly unit: number;
  /** The only function it answers to: 3 reads holding registers, 4 input registers. Both where left out. */
  readonly function?: 3 | 4;
  /** Whether the gauge itself can give no number just now. */
  readonly failed?: () => boolean;
  /** What stands in a register, high byte first, or undefined where the gauge has none. */
  readonly register: (address: number) => number | undefined;
  /** Damages an answer on its way. */
  readonly spoil?: (answer: Uint8Array) => Uint8Array;
}

const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value % 2 === 1 ? (value >>> 1) ^ 0xa001 : value >>> 1;
  return value;
});

function closing(bytes: readonly number[]): [number, number] {
  const sum = bytes.reduce((crc, byte) => (crc >>> 8) ^ (TABLE[(crc ^ byte) % 256] ?? 0), 0xffff);
  return [sum % 256, sum >>> 8];
}

const QUESTION_LENGTH = 8;
const ILLEGAL_FUNCTION = 1;
const ILLEGAL_ADDRESS = 2;
const DEVICE_FAILURE = 4;

/** Hears bytes, gives answers. Half a question waits for its other half. */
export function modbusServer(served: ModbusServed): (bytes: Uint8Array) => Uint8Array[] {
  let heard: number[] = [];

  function answerTo(question: readonly number[]): number[] | undefined {
    const [unit = 0, asked = 0, high = 0, low = 0, , count = 0] = question;
    const [first, second] = closing(question.slice(0, 6));
    // Spoilt questions, and those to other units, are not answered (Modbus over serial line, V1.02).
    if (unit !== served.unit || first !== question[6] || second !== question[7]) return undefined;
    const knows = served.function === undefined ? asked === 3 || asked === 4 : asked === served.function;
    if (!knows) return [unit, asked + 128, ILLEGAL_FUNCTION];
    const values = Array.from({ length: count }, (_, i) => served.register(high * 256 + low + i));
    if (values.some((value) => value === undefined)) return [unit, asked + 128, ILLEGAL_ADDRESS];
    if (served.failed?.() === true) return [unit, asked + 128, DEVICE_FAILURE];
    return [unit, asked, count * 2, ...values.flatMap((value = 0) => [value >>> 8, value % 256])];
  }

  return (bytes) => {
    heard = [...heard, ...bytes];
    const answers: Uint8Array[] = [];
    while (heard.length >= QUESTION_LENGTH) {
      const body = answerTo(heard.slice(0, QUESTION_LENGTH));
      heard = heard.slice(QUESTION_LENGTH);
      if (body === undefined) continue;
      const answer = Uint8Array.from([...body, ...closing(body)]);
      answers.push(served.spoil?.(answer) ?? answer);
    }
    return answers;
  };
}
