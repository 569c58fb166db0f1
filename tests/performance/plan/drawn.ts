/** The first so many axles from a seed on that can be drawn. */
export function drawnFrom<Axle>(
  draw: (seed: number) => Axle | undefined,
  from: number,
  count: number,
): readonly Axle[] {
  const found: Axle[] = [];
  for (let seed = from; found.length < count; seed += 1) {
    const axle = draw(seed);
    if (axle !== undefined) found.push(axle);
  }
  return found;
}
