/** What the help says of a verb. */
export interface VerbTold {
  /** How it is written, without the program's name. */
  readonly usage: string;
  /** What it does, in one line. */
  readonly summary: string;
}

/**
 * The verbs in the order of the help, apart from what they do: the help, the manual page and the shell's completion are made
 * of this alone and wait for no database.
 */
export const told = {
  measure: {
    usage: 'measure backlash|runout|torque --in FILE.jsonl [limits]',
    summary: 'figures, uncertainty and verdicts from a stream of readings',
  },
  predict: {
    usage: 'predict --in FILE.jsonl',
    summary: 'what each gear set is and what shims do to its backlash and marks',
  },
  plan: {
    usage: 'plan --in FILE.jsonl',
    summary: 'which shim to change, by how much, and what should be seen then',
  },
  'read-pattern': {
    usage: 'read-pattern --photo FILE.jpg|png --corners "x,y x,y x,y x,y" [--cut face-milled|face-hobbed]',
    summary: 'the mark on a photographed flank; corners toe-root, toe-crown, heel-crown, heel-root',
  },
  ports: {
    usage: 'ports',
    summary: 'the serial ports of this computer, with their USB identity',
  },
  learn: {
    usage: 'learn --link URL --seconds N',
    summary: 'how a gauge writes its lines, learned while its spindle is moved',
  },
  watch: {
    usage: 'watch --link URL [--format FILE|auto] [--unit UNIT] [--count N]',
    summary: 'every line a gauge sends, as a reading or with the reason why it is none',
  },
  simulate: {
    usage: 'simulate --gauge indicator|torque --format FILE|auto | --modbus OPTIONS|auto [--rate N] [--faults LIST]',
    summary: 'a simulated gauge on a pseudo-terminal, until it is ended',
  },
  builds: {
    usage: 'builds [--find WORDS] [--limit N] [--data DIR]',
    summary:
      'the builds in the records, the one written in last first; with --find those in which every word was typed',
  },
  export: {
    usage:
      'export --build ID --as pdf|json|csv|qif|journal|bundle --out DIR [--photos] [--everything] [--page a4|letter] [--units metric|inch] [--data DIR]',
    summary: 'a build as certificate, as its data, or as the readings its measurements rest on; its photos on request',
  },
  verify: {
    usage: 'verify FILE [--data DIR]',
    summary:
      'whether a certificate (PDF or its data) is as it was signed, and says what its own notebook and readings give',
  },
  import: {
    usage: 'import FILE [--data DIR]',
    summary: 'takes in a build of another bench, from its bundle: with its readings and photos',
  },
  backup: {
    usage: 'backup DIR [--data DIR]',
    summary: 'copies all records, with photos, readings, settings and the key, into one verified file in DIR',
  },
  restore: {
    usage: 'restore FILE [--data DIR]',
    summary: 'puts a backup into a data folder, never over records that are there',
  },
  archive: {
    usage:
      'archive migrate|send|status|find WORDS|fetch [--to postgres://ROLE@HOST:PORT/DATABASE] [--once] [--limit N] [--build ID] [--data DIR]',
    summary:
      'the memory of several benches, on PostgreSQL: makes it, sends to it, looks through it, brings a build home',
  },
  schema: {
    usage: 'schema certificate|bundle|spec-sheet|line-format|gauge',
    summary: 'the JSON Schema of a file the bench reads or writes',
  },
  demo: {
    usage: 'demo --out DIR [--archive postgres://ROLE@HOST:PORT/DATABASE]',
    summary: 'the whole job on the simulated axle, with its certificate',
  },
  open: {
    usage: 'open [--simulate] [--browser] [--alone] [--port N] [--data DIR]',
    summary: 'the bench in its window, or in the browser, until it is ended; --alone ends it after its last page',
  },
} as const satisfies Readonly<Record<string, VerbTold>>;

export type VerbName = keyof typeof told;
