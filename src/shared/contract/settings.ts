import { z } from 'zod';
import { idSchema, nameSchema, textSchema } from '../basics/recorded.ts';
import { placeSchema } from './about.ts';
import { pageSizes } from './certificate.ts';
import { question } from './message.ts';

/** Kinds of reading that are read off a tool and typed: each has the tool that was used for it last. */
export const toolUses = ['length', 'dial', 'torque', 'fastener', 'force'] as const;
export type ToolUse = (typeof toolUses)[number];

/** So many names of people are offered to choose from; whoever worked last stands first. */
export const mostTechnicians = 40;

/** A logo stands at the head of a page and no larger: the page that sets it shrinks it to this. */
export const largestLogo = { width: 1200, height: 600, bytes: 200_000 } as const;

/** What the shop has set at this bench, each under its own name. None of it goes into a record. */
export const settingsSchema = z.strictObject({
  /** Who is at the stand. */
  technician: textSchema(200),
  /** Everyone who was, the last one first. */
  technicians: z.array(nameSchema).max(mostTechnicians),
  units: z.enum(['metric', 'inch']),
  theme: z.enum(['system', 'light', 'dark']),
  sound: z.boolean(),
  pictureCues: z.boolean(),
  spoken: z.boolean(),
  /** KeyboardEvent.code of the foot pedal; Space and Page Down mean next besides. */
  pedalKey: textSchema(40).min(1),
  page: z.enum(pageSizes),
  /** What stands at the head of certificates: the shop's name and where it is. */
  shopName: textSchema(120),
  shopAddress: textSchema(300),
  /** Its logo, a JPEG as base64; empty where it has none. */
  shopLogo: z.union([z.literal(''), z.base64().max((largestLogo.bytes * 4) / 3 + 4)]),
  /** What this bench is called on certificates; empty, and it keeps the name it was made with. */
  benchName: textSchema(120),
  /** At which side of the picture the toe lies: turned to how the technician stands. */
  toeAt: z.enum(['left', 'right']),
  /** Whether the plan begins from finished builds, and which of them it leaves out. */
  earlierBuilds: z.boolean(),
  earlierLeftOut: z.array(idSchema).max(10_000),
  /** Where a list of versions lies, looked at when somebody asks for it; empty where the shop has none. */
  versionsAt: placeSchema,
  /** The tool used last, by the kind of reading: its record's id. */
  tools: z.partialRecord(z.enum(toolUses), idSchema),
});
export type Settings = z.infer<typeof settingsSchema>;
export type SettingName = keyof Settings;
export const settingNames = Object.keys(settingsSchema.shape) as readonly SettingName[];

/** As the bench stands before anybody has set anything. */
export const usualSettings: Settings = {
  technician: '',
  technicians: [],
  units: 'metric',
  theme: 'system',
  sound: true,
  pictureCues: true,
  spoken: false,
  pedalKey: 'PageDown',
  page: 'a4',
  shopName: '',
  shopAddress: '',
  shopLogo: '',
  benchName: '',
  toeAt: 'left',
  earlierBuilds: true,
  earlierLeftOut: [],
  versionsAt: '',
  tools: {},
};

/** Some of the settings: those that were ever changed, or those that are to be. */
export const someSettingsSchema = settingsSchema.partial();
export type SomeSettings = z.infer<typeof someSettingsSchema>;

export const settingQuestions = {
  /** What has been set; a setting that is not there is as usual. */
  'settings.read': question(z.strictObject({}), someSettingsSchema),
  /** Changes some settings and gives all that have been set. */
  'settings.change': question(z.strictObject({ change: someSettingsSchema }), someSettingsSchema),
} as const;

/** What was just changed, told to every screen on the bench. */
export const settingTopics = { 'settings-changed': someSettingsSchema } as const;
