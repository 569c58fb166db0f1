/**
 * Names of the IPC channels; texts pass through them unread. They stand alone, because the sandboxed preload that uses
 * them can import nothing but Electron.
 */
export const channels = {
  toBench: 'axlewright:to-bench',
  fromBench: 'axlewright:from-bench',
  presence: 'axlewright:presence',
  awake: 'axlewright:awake',
} as const;
