import { z } from 'zod';

const many = z.int().min(0);

/** What the shop's builds of one month tell, by the month they were begun in; thrown-away ones do not count. */
export const monthSchema = z.strictObject({
  /** YYYY-MM */
  month: z.string().regex(/^\d{4}-\d{2}$/u),
  builds: many,
  /** Builds whose last mark was accepted, and the trials they took together. */
  right: many,
  trials: many,
  /** Of those that needed a change, how many were right after the first one. */
  changed: many,
  rightAfterOne: many,
});
export type Month = z.infer<typeof monthSchema>;

/** So many months are told, the last ones in which anything was begun. */
export const mostMonths = 24;

/** Months taken together. */
export type Together = Omit<Month, 'month'>;

export const together = (months: readonly Month[]): Together => ({
  builds: sumOf(months, 'builds'),
  right: sumOf(months, 'right'),
  trials: sumOf(months, 'trials'),
  changed: sumOf(months, 'changed'),
  rightAfterOne: sumOf(months, 'rightAfterOne'),
});

const sumOf = (months: readonly Month[], what: keyof Together): number =>
  months.reduce((sum, month) => sum + month[what], 0);

/** Trials a build took until its mark was right; undefined where none has come so far. */
export const trialsEach = ({ trials, right }: Together): number | undefined =>
  right === 0 ? undefined : trials / right;
