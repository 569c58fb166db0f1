/** What a USB serial adapter says of itself. Cheap ones have no serial number, or all the same one. */
export interface UsbIdentity {
  readonly vendor: string;
  readonly product: string;
  readonly serial?: string | undefined;
}

/** Where a gauge is plugged in, as far as that can be known. */
type Whereabouts =
  | { readonly is: 'found'; readonly path: string }
  | { readonly is: 'absent' }
  /** It may be at any of these; or another gauge with the same adapter may. */
  | { readonly is: 'unclear'; readonly paths: readonly string[] };

/** Two adapters that cannot be told apart. */
export const looksAlike = (one: UsbIdentity, other: UsbIdentity): boolean =>
  one.vendor === other.vendor && one.product === other.product && one.serial === other.serial;

/**
 * Finds a gauge again by its adapter, whatever number its port has got. Nothing is guessed: with two ports that look alike,
 * or another gauge of the shop whose adapter looks the same, a person has to say which is which. The socket is no help, for
 * a plug put into its neighbour's socket would make one gauge's readings another's.
 */
export function whereIs(
  own: UsbIdentity,
  ports: readonly { readonly path: string; readonly usb?: UsbIdentity | undefined }[],
  otherGauges: readonly UsbIdentity[],
): Whereabouts {
  const paths = ports.filter(({ usb }) => usb !== undefined && looksAlike(usb, own)).map(({ path }) => path);
  const [path] = paths;
  if (path === undefined) return { is: 'absent' };
  const alone = paths.length === 1 && !otherGauges.some((other) => looksAlike(other, own));
  return alone ? { is: 'found', path } : { is: 'unclear', paths };
}
