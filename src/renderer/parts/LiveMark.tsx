import './liveMark.css';

export type Liveness = 'live' | 'quiet' | 'away' | 'fault';

/** How a gauge's link stands, by a sign of its own: a bar while readings come, a dotted one when none do. Never a verdict's disc. */
export const LiveMark = ({ liveness }: { readonly liveness: Liveness }) => (
  <span className={`live-mark live-mark--${liveness}`} aria-hidden="true" />
);
