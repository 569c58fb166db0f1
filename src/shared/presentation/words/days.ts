/** Intl knows the months, in whatever language; the order of the parts is ours: day, month in letters, year. */
const partsIn = (zone: string): Intl.DateTimeFormat =>
  new Intl.DateTimeFormat('en', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone: zone,
  });

const known = new Map<string, Intl.DateTimeFormat>();

/** Making a format costs far more than using it, and a list of builds shows hundreds of days. */
function formatIn(zone: string): Intl.DateTimeFormat {
  const format = known.get(zone) ?? partsIn(zone);
  known.set(zone, format);
  return format;
}

function partsOf(date: string, zone: string) {
  const parts = formatIn(zone).formatToParts(new Date(date));
  const part = (type: Intl.DateTimeFormatPartTypes): string => parts.find((one) => one.type === type)?.value ?? '';
  return { day: `${part('day')} ${part('month')} ${part('year')}`, clock: `${part('hour')}:${part('minute')}` };
}

/** A day alone is the same day everywhere; only an instant lies in some zone. */
const isDay = (date: string): boolean => date.length === 'YYYY-MM-DD'.length;

/**
 * "5 Jan 2026" from a day (YYYY-MM-DD) or an RFC 3339 instant.
 * @param zone in which an instant is told: an IANA name, or an offset such as +02:00.
 */
export const dayText = (date: string, zone: string = writtenZone(date)): string =>
  partsOf(date, isDay(date) ? 'UTC' : zone).day;

/** "5 Jan 2026, 14:05" from an instant, told in a zone. */
export function timeText(instant: string, zone: string): string {
  const { day, clock } = partsOf(instant, zone);
  return `${day}, ${clock}`;
}

/** "5 Jan 2026, 08:21 UTC": with the offset it was written with, so that paper reads the same in every time zone. */
export function paperTimeText(instant: string): string {
  const zone = writtenZone(instant);
  return `${timeText(instant, zone)} ${zone === 'UTC' ? zone : `UTC${zone.replace('-', '−')}`}`;
}

const writtenZone = (instant: string): string => /[+-]\d\d:\d\d$/u.exec(isDay(instant) ? '' : instant)?.[0] ?? 'UTC';
