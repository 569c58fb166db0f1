const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** "5 Jan 2026" from YYYY-MM-DD or an instant. As written there: a certificate reads the same in every time zone. */
export function dayText(date: string): string {
  const [year = '', month = '', day = ''] = date.slice(0, 10).split('-');
  return `${Number(day)} ${months[Number(month) - 1] ?? month} ${year}`;
}

/** "5 Jan 2026, 08:21 UTC" from an RFC 3339 instant, with the offset it was written with. */
export function timeText(instant: string): string {
  const offset = /(?:Z|[+-]\d\d:\d\d)$/u.exec(instant)?.[0] ?? '';
  const zone = offset === 'Z' || offset === '' ? 'UTC' : `UTC${offset.replace('-', '−')}`;
  return `${dayText(instant)}, ${instant.slice(11, 16)} ${zone}`;
}
