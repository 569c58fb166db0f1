import { z } from 'zod';
import { shimDrawerSchema } from '../job/records/drawer.ts';
import { question } from './message.ts';

export const drawerQuestions = {
  /** The shims at hand; an empty drawer before anything was entered. */
  'drawer.read': question(z.strictObject({}), shimDrawerSchema),
  /** Writes the drawer as it is now; what it was stays in the store. */
  'drawer.save': question(z.strictObject({ drawer: shimDrawerSchema }), shimDrawerSchema),
} as const;

export const drawerTopics = { 'drawer-changed': shimDrawerSchema } as const;
