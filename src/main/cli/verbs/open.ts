import { openDesk } from '../../hosts/launcher/desk.ts';
import { numberOption } from '../options.ts';
import { folderOf } from '../records.ts';
import { told } from '../told.ts';
import { noAnswer, type Verb, wrongUse } from '../verb.ts';

/** The bench for a person at this machine, as npm start opens it. */
export const open: Verb = {
  name: 'open',
  ...told.open,
  options: {
    simulate: { type: 'boolean' },
    browser: { type: 'boolean' },
    alone: { type: 'boolean' },
    port: { type: 'string' },
  },
  async run(given, output) {
    const port = numberOption(given, 'port', { least: 0, most: 65_535, whole: true });
    if (!port.ok) return wrongUse(output, port.problem);
    const opened = await openDesk({
      folder: folderOf(given),
      simulate: given.flag('simulate'),
      browser: given.flag('browser'),
      alone: given.flag('alone'),
      port: port.value ?? 0,
      say: (sentence) => output.say(sentence),
      onLink: (link) => output.answer({ link }),
    });
    return opened.ok ? 0 : noAnswer(output, opened.problem);
  },
};
