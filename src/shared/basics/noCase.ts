/**
 * What the end of a `switch` over a union throws. Its parameter takes no value at all, so a union that grows does not
 * compile until every such `switch` has its case; at run time it can only be met by a defect.
 */
export const noCase = (value: never): Error => new Error(`Nothing is written for ${JSON.stringify(value)}.`);
