import type { Line } from './cable.ts';
import { servePty } from './pty.ts';
import { serveTcp } from './tcp.ts';

export type { Line } from './cable.ts';

export type LineKind = 'pty' | 'tcp';

/** Pseudo-terminals are served on Linux only; elsewhere TCP stands in. */
export const lineKindHere = (): LineKind => (process.platform === 'linux' ? 'pty' : 'tcp');

/** Serves one line. Throws where the system cannot give a pseudo-terminal: that is a defect of the stand, not of a gauge. */
export function serveLine(options: { readonly kind?: LineKind } = {}): Promise<Line> {
  return (options.kind ?? lineKindHere()) === 'pty' ? servePty() : serveTcp();
}
