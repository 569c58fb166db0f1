import type { ModbusLink } from '../../../shared/gauges/modbus/modbusLink.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { openModbus } from './modbus.ts';

/** Longer than a gauge that answers at all takes, with two questions lost on the way. */
const patience_ms = 1500;
/** Often enough to be answered soon, and slowly enough for any gauge. */
const every_ms = 200;

/** Asks once for the register of the link and the one after it, and hangs up: the port is free again afterwards. */
export async function readRegisters(link: ModbusLink): Promise<Result<readonly [number, number]>> {
  const heard = Promise.withResolvers<readonly [number, number] | undefined>();
  let text = '';
  const port = await openModbus(
    { ...link, type: 'u32', order: 'high-first', every_ms },
    {
      bytes: (bytes) => {
        text += Buffer.from(bytes).toString('latin1');
        const words = wordsOf(text);
        if (words !== undefined) heard.resolve(words);
      },
      closed: () => heard.resolve(undefined),
    },
  );
  if (!port.ok) return port;
  const timer = setTimeout(() => heard.resolve(undefined), patience_ms);
  const words = await heard.promise;
  clearTimeout(timer);
  await port.value.close();
  return words === undefined ? fail(noAnswer(link)) : ok(words);
}

/** The frame of a whole answer to a question for two registers: address, function, four bytes to come, the bytes, CRC. */
function wordsOf(text: string): readonly [number, number] | undefined {
  const frame = /(?:^|\n)[0-9A-F]{2}0[34]04([0-9A-F]{4})([0-9A-F]{4})[0-9A-F]{4} /u.exec(text);
  return frame === null ? undefined : [Number.parseInt(frame[1] ?? '', 16), Number.parseInt(frame[2] ?? '', 16)];
}

const noAnswer = ({ unit, register }: ModbusLink): Problem => ({
  kind: 'no-answer',
  field: 'register',
  sentence: `No gauge at address ${unit} answered with registers ${register} and ${register + 1}.`,
  remedy: 'Look at address, speed and parity in the gauge’s own settings, and at the number of its first register.',
});
