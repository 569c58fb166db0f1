/** The keychain of the system, where the host of the bench has one to ask. */
export interface Keychain {
  /** A secret as nobody but this account opens it again; undefined where the system keeps none. */
  seal(secret: string): Promise<string | undefined>;
  /** Undefined where it is given back no more. */
  open(sealed: string): Promise<string | undefined>;
}

/** For hosts that have none. */
export const noKeychain: Keychain = { seal: async () => undefined, open: async () => undefined };
