import { fail, ok, type Result } from '../../../shared/basics/result.ts';
import type { Port, PortListener, PortProblemKind } from './port.ts';

/**
 * The door through which a gauge that types like a keyboard comes in: the window catches what it types and hands it on
 * here as bytes. Keyboards cannot be told apart, so only one such gauge is listened to at a time.
 */
export interface KeyboardDoor {
  readonly open: (listener: PortListener) => Result<Port, PortProblemKind>;
  /** False when no gauge is listened to. */
  readonly type: (bytes: Uint8Array) => boolean;
}

export function keyboardDoor(): KeyboardDoor {
  let open: PortListener | undefined;
  return {
    open: (listener) => {
      if (open !== undefined) return fail(anotherTypes);
      open = listener;
      const close = async (): Promise<void> => {
        if (open !== listener) return;
        open = undefined;
        listener.closed(putAway);
      };
      return ok({ write: () => undefined, close });
    },
    type: (bytes) => {
      open?.bytes(bytes);
      return open !== undefined;
    },
  };
}

const anotherTypes = {
  kind: 'port-busy',
  sentence: 'Another gauge that types like a keyboard is plugged in, and the two cannot be told apart.',
  remedy: 'Put the other one away first.',
} as const;

const putAway = { kind: 'vanished', sentence: 'It is no longer listened to.', remedy: 'Plug it in again.' } as const;
