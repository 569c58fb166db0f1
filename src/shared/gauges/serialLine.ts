/** A serial port and how bytes run over it, whatever is spoken there. */
export interface SerialLine {
  readonly path: string;
  readonly baud: number;
  readonly bits: 7 | 8;
  readonly parity: 'none' | 'even' | 'odd' | 'mark' | 'space';
  readonly stop: 1 | 2;
}
