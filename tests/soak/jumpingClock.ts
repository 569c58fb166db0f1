// Loaded before the bench of a soak, and only there: with SIGUSR2 the wall clock of this process jumps, as when a person or a
// time server sets it. The monotonic clock goes on, as it does then.
const usual = Date.now.bind(Date);
const hour_ms = 3_600_000;
/** Back and forth by hours, months and years: a battery that was empty, summer time, a date typed wrongly. */
const jumps_ms = [-hour_ms, hour_ms, -400 * 24 * hour_ms, 0, 30 * 365 * 24 * hour_ms, -25 * 365 * 24 * hour_ms, 0];
let jumps = 0;
let off_ms = 0;

process.on('SIGUSR2', () => {
  off_ms = jumps_ms[jumps % jumps_ms.length] ?? 0;
  jumps += 1;
});
Date.now = () => usual() + off_ms;
