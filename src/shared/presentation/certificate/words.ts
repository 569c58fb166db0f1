/** What the certificate claims, and nothing beyond it. */
export const statement =
  'This certificate states the readings that were taken and whether they lie within the limits that were entered, with the source given for each limit. It says nothing about the condition of the axle beyond these readings.';

/** The usual cautions of the trade, in our own words; the maker's manual and local rules go before all of them. */
export const cautions: readonly string[] = [
  "The maker's service manual for this very axle, local rules and a qualified person decide. Limits here are those that somebody entered.",
  'Whether a vehicle may go on the road is for a qualified person to judge.',
  'Oil, break-in and the first inspection follow the maker’s instructions. Check for leaks and heat after a short first drive.',
];
