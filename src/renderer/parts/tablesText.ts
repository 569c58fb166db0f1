/** Every table in a part of the page as text for a spreadsheet: rows as lines, cells parted by tabs, an empty line between tables. */
export const tablesText = (within: ParentNode): string =>
  [...within.querySelectorAll('table')].map(tableText).join('\n\n');

const tableText = (table: HTMLTableElement): string =>
  [...table.rows].map((row) => [...row.cells].map(({ textContent }) => cellText(textContent)).join('\t')).join('\n');

/**
 * One cell on one line. What a spreadsheet would take for a formula gets an apostrophe before it, which it does not show; numbers
 * with their sign stay numbers.
 */
export function cellText(content: string): string {
  // A minus is printed as one, and read by a spreadsheet only as a hyphen.
  const text = content
    .replaceAll(/\s+/gu, ' ')
    .replaceAll(/−(?=[\d.])/gu, '-')
    .trim();
  return /^[=+@-]/u.test(text) && !/^[-+]?[\d.,]+(?: .*)?$/u.test(text) ? `'${text}` : text;
}
