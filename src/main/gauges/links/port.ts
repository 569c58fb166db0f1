import type { Problem, Result } from '../../../shared/basics/result.ts';
import type { Link } from '../../../shared/gauges/link.ts';

/** The least a gauge has to be: something that gives bytes, takes bytes, and can be lost. */
export interface Port {
  /** Sends bytes; a write to a port that is gone is lost, and `closed` tells so. */
  readonly write: (bytes: Uint8Array) => void;
  /** Ends the connection from our side. Calling it twice does no harm. */
  readonly close: () => Promise<void>;
}

/** Given when opening, so that not even the first bytes are missed. */
export interface PortListener {
  readonly bytes: (bytes: Uint8Array) => void;
  /** Exactly once, when the port is gone: unplugged, hung up, or closed by us. */
  readonly closed: (problem: PortProblem) => void;
}

export type PortProblemKind =
  | 'port-missing'
  | 'port-busy'
  | 'no-permission'
  | 'not-a-port'
  | 'wrong-settings'
  | 'no-answer'
  | 'vanished'
  | 'hangs-up'
  | 'which-port'
  | 'port-error';

export type PortProblem = Problem<PortProblemKind>;

export type OpenPort = (link: Link, listener: PortListener) => Promise<Result<Port, PortProblemKind>>;
