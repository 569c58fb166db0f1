import { answerIn, questionFrame } from '../../../shared/gauges/modbus/frame.ts';
import { modbusLine, questionOf } from '../../../shared/gauges/modbus/modbusLine.ts';
import type { ModbusLink } from '../../../shared/gauges/modbus/modbusLink.ts';
import { ok, type Result } from '../../../shared/basics/result.ts';
import type { Port, PortListener, PortProblemKind } from './port.ts';
import { openSerial } from './serial.ts';

/** A gauge that has not answered by then will not; makers allow a second, ours on a bench take a few milliseconds. */
const patience_ms = 300;

/**
 * Asks a gauge for its registers over our own serial port and hands each answer on as a line. A question is asked when
 * its time has come and the one before was answered, or given up: an answer is never taken for that to a later question.
 */
export async function openModbus(link: ModbusLink, listener: PortListener): Promise<Result<Port, PortProblemKind>> {
  const question = questionOf(link);
  const frame = questionFrame(question);
  let heard: Uint8Array = new Uint8Array(0);
  let asking = false;
  let askedAt_ms = 0;
  let timer: NodeJS.Timeout | undefined;

  const answered = (): void => {
    const answer = answerIn(heard, question);
    if (answer.is === 'incomplete') return;
    heard = new Uint8Array(0);
    asking = false;
    listener.bytes(modbusLine(answer, link));
  };

  const port = await openSerial(asSerial(link), {
    bytes: (bytes) => {
      // Bytes that nobody asked for are the tail of something given up.
      if (!asking) return;
      heard = Buffer.concat([heard, bytes]);
      answered();
    },
    closed: (problem) => {
      clearInterval(timer);
      listener.closed(problem);
    },
  });
  if (!port.ok) return port;

  const ask = (): void => {
    if (asking && performance.now() - askedAt_ms < patience_ms) return;
    // Half an answer is shown and counted; no answer at all is silence, which is noticed elsewhere.
    if (asking && heard.length > 0) listener.bytes(modbusLine({ is: 'damaged', frame: heard }, link));
    heard = new Uint8Array(0);
    asking = true;
    askedAt_ms = performance.now();
    port.value.write(frame);
  };
  ask();
  timer = setInterval(ask, link.every_ms);
  return ok({
    // It is asked in frames only: words from elsewhere have no place on this line.
    write: () => undefined,
    close: async () => {
      clearInterval(timer);
      await port.value.close();
    },
  });
}

const asSerial = ({ path, baud, parity, stop }: ModbusLink) =>
  ({ kind: 'serial', path, baud, bits: 8, parity, stop }) as const;
