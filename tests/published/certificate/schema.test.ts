import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
// The foreign validator comes with the runner of mutations.
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { jsonSchemaOf, schemaNames } from '../../../src/main/exports/schemas.ts';
import { issued, measuredNotebook } from '../../support/records/issued.ts';

const published = (name: string): object =>
  JSON.parse(readFileSync(resolve(import.meta.dirname, `../../../docs/schema/${name}.json`), 'utf8')) as object;

describe('the published JSON Schemas', () => {
  it.each(schemaNames)('of %s is the one that the bench checks with', (name) => {
    const now = JSON.parse(JSON.stringify(jsonSchemaOf(name))) as object;
    expect(published(name), `npm run -s axlewright -- schema ${name} > docs/schema/${name}.json`).toEqual(now);
  });

  it('take a certificate, to another program that knows nothing of the bench, and nothing that is none', () => {
    const ajv = new Ajv2020({ strict: false, validateFormats: false });
    const validate = ajv.compile(published('certificate'));
    const { data, csv } = issued(measuredNotebook({ trials: 2, stations: 4 }));
    const file = JSON.parse(JSON.stringify({ ...data, readingsCsv: csv })) as Record<string, unknown>;
    expect(validate(file), JSON.stringify(validate.errors?.slice(0, 2))).toBe(true);
    expect(validate({ ...file, more: 1 })).toBe(false);
    expect(validate({ ...file, revision: 0 })).toBe(false);
    const { judged: _judged, ...without } = file;
    expect(validate(without)).toBe(false);
  });
});
