import type { VerbTold } from '../../cli/told.ts';

/** The manual page of the command line, from what its verbs say of themselves. */
export function manualPage(verbs: Readonly<Record<string, VerbTold>>, version: string): string {
  const entries = Object.values(verbs).map(
    ({ usage, summary }) => `.TP\n.B axlewright ${escaped(usage)}\n${escaped(summary)}`,
  );
  return `.TH AXLEWRIGHT 1 "" "Axlewright ${version}" "User commands"
.SH NAME
axlewright \\- a bench for setting up ring-and-pinion gears in drive axles
.SH SYNOPSIS
.B axlewright
.I VERB
.RI [ options ]
.SH DESCRIPTION
Reads gauges, measures backlash, runout and torque, plans the next shim and keeps the records.
Answers are JSON on standard output, words are on standard error.
.SH VERBS
${entries.join('\n')}
.SH EXIT STATUS
0 answered (outside limits is an answer), 1 no answer, 2 wrong use.
.SH FILES
.I ~/.local/share/axlewright
holds the records; removing the package leaves them.
.SH SEE ALSO
.I /usr/share/doc/axlewright
`;
}

/** A hyphen is written as one, and a line never begins with what the formatter takes for an order. */
const escaped = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replaceAll(/^([.'])/gmu, '\\&$1');

/** Completion for bash: the verbs, then the options that the verb's own usage names. */
export function completion(verbs: Readonly<Record<string, VerbTold>>): string {
  const cases = Object.entries(verbs).map(
    ([name, { usage }]) => `    ${name}) options="${optionsIn(usage).join(' ')}" ;;`,
  );
  return `# bash completion of axlewright
_axlewright() {
  local word="\${COMP_WORDS[COMP_CWORD]}" options=""
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "${Object.keys(verbs).join(' ')} --help" -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
${cases.join('\n')}
  esac
  case "$word" in
    -*) COMPREPLY=($(compgen -W "$options --json" -- "$word")) ;;
    *) COMPREPLY=($(compgen -f -- "$word")) ;;
  esac
}
complete -o filenames -F _axlewright axlewright
`;
}

const optionsIn = (usage: string): readonly string[] => [...new Set(usage.match(/--[a-z-]+/gu))];
