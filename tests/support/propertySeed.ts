import fc from 'fast-check';

/**
 * Property tests run on one seed, so that a green run stays green; `PROPERTY_SEED=random npm test` looks further, and
 * a number tries that seed. A seed that failed is printed by fast-check; keep it as an example in its test.
 */
const asked = process.env['PROPERTY_SEED'];
const usual = 20_261_125;
const seed = asked === 'random' ? Math.floor(Math.random() * 2 ** 31) : Number(asked ?? usual);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
