/** A name with its value as it stands in a line. */
interface NamedValue {
  readonly name: string;
  /** All that is written up to the next name: the number, and perhaps a unit. */
  readonly written: string;
}

/** A name, then `=` or `:`, in quotes or not. Digits may end a name ("CH2"), and a number is none. */
const assignment = /(?<![A-Za-z_\d])(?:"([A-Za-z_][\w ]{0,22})"|([A-Za-z_]\w{0,23}))\s*[:=]\s*/gu;

/** What stands between a value and the next name, and round the whole. */
const edges = /^[\s,;{]+|[\s,;}]+$/gu;

/**
 * The values of a line that are told by name: "X=1.234 Y=0.002", "X:+1.2;T:21.5", {"x":1.2,"y":0.0}. Their order and how many
 * stand beside them do not matter.
 */
export function namedValues(text: string): readonly NamedValue[] {
  const found = [...text.matchAll(assignment)];
  return found.map((match, index) => {
    const from = match.index + match[0].length;
    const to = found[index + 1]?.index ?? text.length;
    return { name: match[1] ?? match[2] ?? '', written: text.slice(from, to).replaceAll(edges, '') };
  });
}

/** The value of that name; undefined where the line has none of it, or two: then nobody knows which is meant. */
export function valueNamed(text: string, name: string): string | undefined {
  const own = namedValues(text).filter((value) => value.name === name);
  return own.length === 1 ? own[0]?.written : undefined;
}
