import { jsonSchemaOf, schemaNames } from '../../exports/schemas.ts';
import { told } from '../told.ts';
import { type Verb, wrongUse } from '../verb.ts';

/** The JSON Schema of something other programs may want to read or write. */
export const schema: Verb = {
  name: 'schema',
  ...told.schema,
  words: 1,
  options: {},
  async run(given, output) {
    const name = schemaNames.find((one) => one === given.words[0]);
    if (name === undefined)
      return wrongUse(output, {
        kind: 'no-such-schema',
        field: 'NAME',
        sentence: `NAME is "${given.words[0] ?? ''}", of which there is no schema.`,
        remedy: `Use ${schemaNames.join(', ')}.`,
      });
    output.answer(jsonSchemaOf(name));
    return 0;
  },
};
