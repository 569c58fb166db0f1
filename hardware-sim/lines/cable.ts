/** The gauge's end of a cable. Whoever opens `link` is at the other end. */
export interface Line {
  /** `serial:/path` or `tcp://127.0.0.1:port`, the same for the line's whole life. */
  readonly link: string;
  /**
   * Sends bytes; settles when they have left, or are lost. Nobody need be listening: like any gauge without
   * handshake the line then loses what it sends. Bytes keep their order.
   */
  write(bytes: Uint8Array): Promise<void>;
  /** Bytes lost because nobody listened or the cable was out. */
  readonly lost_bytes: number;
  /** Hears what the other end sends. Returns a function that stops it. */
  onBytes(listener: (bytes: Uint8Array) => void): () => void;
  /** Pulls the cable: the other end sees its port hang up, and the path is gone. */
  unplug(): Promise<void>;
  /** Puts it back, under the same link. */
  replug(): Promise<void>;
  end(): Promise<void>;
}
