// What may stand behind `npm start --`. Plain Node, so that a wrong word is told before anything is built.
import { parseArgs } from 'node:util';

export const usage = `npm start -- [--simulate] [--browser] [--port N] [--data DIR]
  --simulate   simulated gauges and a simulated axle, in a folder of their own
  --browser    in the browser, even where there is a window
  --port N     the port for the browser, from 1 to 65535; any free one without it
  --data DIR   where the records lie`;

/**
 * @typedef {{ simulate: boolean, browser: boolean, port: number, data: string | undefined, help: boolean }} OpenWords
 * @param {readonly string[]} words
 * @returns {{ readonly ok: true, readonly value: OpenWords } | { readonly ok: false, readonly sentence: string }}
 */
export function readOpenWords(words) {
  try {
    const { values } = parseArgs({
      args: [...words],
      options: {
        simulate: { type: 'boolean', default: false },
        data: { type: 'string' },
        browser: { type: 'boolean', default: false },
        port: { type: 'string', default: '0' },
        help: { type: 'boolean', default: false },
      },
    });
    const port = /^\d{1,5}$/u.test(values.port) ? Number(values.port) : Number.NaN;
    if (!(port >= 0 && port <= 65_535))
      return { ok: false, sentence: `--port is "${values.port}". Give a whole number from 1 to 65535.` };
    if (values.data === '') return { ok: false, sentence: '--data is empty. Name a folder, or leave it out.' };
    const { simulate, browser, help } = values;
    return { ok: true, value: { simulate, browser, help, port, data: values.data } };
  } catch (error) {
    // parseArgs names the option in the first sentence of its message; what follows is about its own syntax.
    const message = error instanceof Error ? error.message : String(error);
    return { ok: false, sentence: `${message.split('. ', 1)[0]}.` };
  }
}
