import { z } from 'zod';
import { idSchema } from '../basics/recorded.ts';
import { heardSchema } from '../gauges/heard.ts';
import { gaugeSchema, usbSchema } from '../job/records/gauge.ts';
import { doneSchema, problemSchema, question } from './message.ts';

const linkStates = ['connecting', 'live', 'silent', 'gone', 'problem', 'unplugged-by-hand'] as const;

/** How a gauge's link stands right now. */
const gaugeStateSchema = z.strictObject({
  gauge: idSchema,
  state: z.enum(linkStates),
  /** Whether anything was heard since its link was opened: a port on which nothing hangs can be opened too. */
  heard: z.boolean(),
  /** Lines that became readings, and lines that could not be read, since it was plugged in. */
  readings: z.int().min(0),
  unreadable: z.int().min(0),
  rate_per_s: z.number().min(0),
  problem: problemSchema.optional(),
});
export type GaugeState = z.infer<typeof gaugeStateSchema>;

const portSchema = z.strictObject({
  link: z.string(),
  name: z.string(),
  usb: usbSchema.optional(),
  simulated: z.boolean(),
});
export type Port = z.infer<typeof portSchema>;

const register = z.int().min(0).max(0xff_ff);

/**
 * As many rows go in one answer, some 2 MB; a full one is asked on behind its last row. Ten times as many kept the bench from
 * its gauges for seconds, and forty such questions at once from everything for minutes.
 */
export const mostHeard = 20_000;

export const gaugeQuestions = {
  'gauges.list': question(z.strictObject({}), z.array(gaugeSchema)),
  'gauges.states': question(z.strictObject({}), z.array(gaugeStateSchema)),
  'gauges.save': question(z.strictObject({ gauge: gaugeSchema.partial({ id: true }) }), gaugeSchema),
  /** `at`: the port's link, where a person says that it hangs there. */
  'gauges.plug-in': question(z.strictObject({ gauge: idSchema, at: z.string().max(400).optional() }), doneSchema),
  'gauges.unplug': question(z.strictObject({ gauge: idSchema }), doneSchema),
  'gauges.press': question(
    z.strictObject({ gauge: idSchema, pedal: z.enum(['next', 'again']) }),
    z.strictObject({ seq: z.int() }),
  ),
  /** What a gauge that types like a keyboard has typed: a line with its end, a byte a character. */
  'gauges.typed': question(z.strictObject({ gauge: idSchema, text: z.string().min(1).max(300) }), doneSchema),
  'gauges.ports': question(z.strictObject({}), z.array(portSchema)),
  /** The register a Modbus link names and the one after it, as they stand now. A gauge that is read at that port is put away for as long. */
  'gauges.registers': question(
    z.strictObject({ link: z.string().max(400) }),
    z.strictObject({ first: z.int().min(0), words: z.tuple([register, register]) }),
  ),
  /** Readings of a stretch from its first row on, to draw a measurement again; a page at a time. */
  'gauges.heard': question(
    z.strictObject({ gauge: idSchema, from: z.int().min(0), to: z.int().min(0) }),
    z.array(heardSchema).max(mostHeard),
  ),
} as const;

export const gaugeTopics = {
  /** Readings as they come: at once up to 1,000/s in all, above that one batch a frame. */
  heard: z.array(heardSchema),
  'gauge-states': z.array(gaugeStateSchema),
  /** The record of a gauge or tool as it was just entered or changed. */
  'gauge-saved': gaugeSchema,
} as const;
