import { z } from 'zod';
import { monthSchema, mostMonths } from '../job/shop/overTime.ts';
import { question } from './message.ts';

export const shopQuestions = {
  /** What the shop's builds tell month by month, the earliest first. */
  'shop.over-time': question(z.strictObject({}), z.array(monthSchema).max(mostMonths)),
} as const;
