/** A plain number as typed, with a comma or a point; undefined while there is none that lies between the ends. */
export function numberTyped(text: string, least: number, most: number): number | undefined {
  const trimmed = text.trim().replace(',', '.');
  const value = Number(trimmed);
  return trimmed !== '' && value >= least && value <= most ? value : undefined;
}
