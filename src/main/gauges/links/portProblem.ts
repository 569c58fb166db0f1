import type { PortProblem } from './port.ts';

interface Explanation {
  readonly says: RegExp;
  readonly problem: (place: string, said: string) => PortProblem;
}

/** What the system says when a port cannot be opened, on Linux, macOS and Windows, and what that means here. */
const explanations: readonly Explanation[] = [
  {
    says: /cannot lock port|resource busy|EBUSY|access denied/iu,
    problem: (place) => ({
      kind: 'port-busy',
      sentence: `${place} is in use by another program.`,
      remedy:
        'Close the program that has it (a terminal, a maker\u2019s own tool); the bench takes it as soon as it is free.',
    }),
  },
  {
    says: /permission denied|EACCES|EPERM|operation not permitted/iu,
    problem: (place) => ({
      kind: 'no-permission',
      sentence: `Your user may not open ${place}.`,
      remedy: permissionRemedy(process.platform),
    }),
  },
  {
    says: /no such (?:file|device)|ENOENT|ENXIO|ENODEV|file not found/iu,
    problem: (place) => ({
      kind: 'port-missing',
      sentence: `There is no port ${place}.`,
      remedy: 'Plug the gauge in; the bench connects by itself. If it is plugged in, choose its port anew.',
    }),
  },
  {
    says: /inappropriate ioctl|not a typewriter|ENOTTY|is a directory|EISDIR/iu,
    problem: (place) => ({
      kind: 'not-a-port',
      sentence: `${place} is not a serial port.`,
      remedy: 'Choose a port from the list.',
    }),
  },
  {
    says: /invalid argument|EINVAL|setting baud|unknown error code 87/iu,
    problem: (place) => ({
      kind: 'wrong-settings',
      sentence: `${place} does not take these settings (baud rate, bits, parity or stop bits).`,
      remedy: 'Choose other settings, or let the bench learn them.',
    }),
  },
  {
    says: /ECONNREFUSED|ENOTFOUND|EAI_AGAIN|EHOSTUNREACH|ENETUNREACH|ETIMEDOUT|EHOSTDOWN/u,
    problem: (place) => ({
      kind: 'no-answer',
      sentence: `Nothing answers at ${place}.`,
      remedy: 'Check that the serial server is switched on and in this network, and its address and port.',
    }),
  },
];

/** The exact words that put it right, where the system has such words. */
export const permissionRemedy = (platform: NodeJS.Platform): string =>
  platform === 'linux'
    ? 'Run: sudo usermod -aG dialout $USER, then log out and in again.'
    : 'Ask whoever looks after this computer to let you use serial ports.';

/** An error of opening a port as a problem for the technician. Anything unheard of is passed on in its own words. */
export function openingProblem(error: unknown, place: string): PortProblem {
  const said = error instanceof Error ? `${error.message} ${codeOf(error)}` : String(error);
  const known = explanations.find((each) => each.says.test(said));
  if (known !== undefined) return known.problem(place, said);
  return {
    kind: 'port-error',
    sentence: `${place} could not be opened: ${said.trim()}.`,
    remedy: 'Unplug the gauge, plug it in again, and choose its port anew.',
  };
}

export const codeOf = (error: Error & { readonly code?: unknown }): string =>
  typeof error.code === 'string' ? error.code : '';

export const vanished = (place: string): PortProblem => ({
  kind: 'vanished',
  sentence: `${place} was unplugged or switched off.`,
  remedy: 'Plug it in again; the bench picks it up by itself.',
});

export const hangsUp = (place: string): PortProblem => ({
  kind: 'hangs-up',
  sentence: `The server at ${place} takes the connection and hangs up at once.`,
  remedy: 'Most serial servers serve one at a time: close whatever else is connected to it, or switch it off and on.',
});
