declare const unit: unique symbol;

/** A number that knows its unit. Arithmetic gives a plain number again, so that a unit is always put on deliberately. */
type Quantity<Unit extends string> = number & { readonly [unit]: Unit };

/** Length in millimetres. */
export type Length = Quantity<'mm'>;
/** Torque in newton metres. */
export type Torque = Quantity<'N.m'>;
/** Angle in radians. */
export type Angle = Quantity<'rad'>;
/** Time in seconds. */
export type Time = Quantity<'s'>;

export const mm = (value: number): Length => value as Length;
export const newtonMetres = (value: number): Torque => value as Torque;
export const radians = (value: number): Angle => value as Angle;
export const seconds = (value: number): Time => value as Time;

export const degrees = (value: number): Angle => radians((value * Math.PI) / 180);
export const toDegrees = (angle: Angle): number => (angle * 180) / Math.PI;
