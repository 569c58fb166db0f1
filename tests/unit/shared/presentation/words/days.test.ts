import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayText, paperTimeText, timeText } from '../../../../../src/shared/presentation/words/days.ts';

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

describe('a day in words', () => {
  it('is the day as it was written, in every zone', () => {
    const zones = fc.constantFrom('UTC', 'Pacific/Auckland', 'America/Los_Angeles', '+14:00');
    const days = fc.date({ min: new Date('1990-01-01'), max: new Date('2090-01-01'), noInvalidDate: true });
    fc.assert(
      fc.property(days, zones, (date, zone) => {
        const day = date.toISOString().slice(0, 10);
        const [year = '', month = '', number = ''] = day.split('-');
        expect(dayText(day, zone)).toBe(`${Number(number)} ${months[Number(month) - 1]} ${year}`);
      }),
    );
  });

  it('of an instant is the day it was there', () => {
    expect(dayText('2026-01-05T23:30:00.000Z', 'Europe/Berlin')).toBe('6 Jan 2026');
    expect(timeText('2026-01-05T23:30:00.000Z', 'Europe/Berlin')).toBe('6 Jan 2026, 00:30');
  });
});

describe('a time on paper', () => {
  it('is the one that was written, with its offset', () => {
    expect(paperTimeText('2026-01-05T08:21:59.000Z')).toBe('5 Jan 2026, 08:21 UTC');
    expect(paperTimeText('2026-09-05T23:21:00+02:00')).toBe('5 Sep 2026, 23:21 UTC+02:00');
    expect(paperTimeText('2026-01-05T00:05:00-07:30')).toBe('5 Jan 2026, 00:05 UTC−07:30');
  });
});
