import { z } from 'zod';
import { certificateSchema } from '../../shared/job/certifying/certificateData.ts';
import { gaugeSchema } from '../../shared/job/records/gauge.ts';
import { specSheetSchema } from '../../shared/job/records/specSheet.ts';
import { lineFormatSchema } from '../../shared/gauges/lineFormat.ts';
import { signatureSchema } from '../certificate/signature.ts';
import { bundleSchema } from './bundle.ts';

/** A certificate as `export --as json` writes it: the data, with readings and signature beside them. */
const certificateFileSchema = certificateSchema.extend({
  readingsCsv: z.string().optional(),
  signature: signatureSchema.optional(),
});

/** What other programs may want to read or write, by name. */
const named = {
  certificate: certificateFileSchema,
  bundle: bundleSchema,
  'spec-sheet': specSheetSchema,
  'line-format': lineFormatSchema,
  gauge: gaugeSchema,
} as const;

type SchemaName = keyof typeof named;
export const schemaNames = Object.keys(named) as readonly SchemaName[];

/**
 * A JSON Schema (draft 2020-12) made from the schema that the bench itself checks with. What no JSON Schema can say (that
 * one end of a limit is needed, that figures follow from each other) is checked by the bench alone.
 */
export const jsonSchemaOf = (name: SchemaName): object => ({
  $id: `urn:axlewright:${name}`,
  title: `Axlewright ${name}`,
  ...z.toJSONSchema(named[name], { io: 'input', unrepresentable: 'any', reused: 'ref' }),
});
