/** A title as a file name on every system: letters and digits, the rest as single dashes. */
export const fileNameOf = (title: string): string =>
  title
    .normalize('NFKD')
    .replaceAll(/[^A-Za-z0-9]+/gu, '-')
    .replaceAll(/^-+|-+$/gu, '')
    .slice(0, 60) || 'certificate';
