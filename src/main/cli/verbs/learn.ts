import { doubtInWords } from '../../../shared/gauges/learn/learned.ts';
import { parseLink } from '../../../shared/gauges/link.ts';
import { type Attempt, type GaugeLearned, learnGauge } from '../../gauges/learn/learnGauge.ts';
import { numberOption, ofOption } from '../options.ts';
import { told } from '../told.ts';
import { needed, noAnswer, type Output, type Verb, wrongUse } from '../verb.ts';

/** How a gauge writes its lines, found out while its spindle is moved. */
export const learn: Verb = {
  name: 'learn',
  ...told.learn,
  options: { link: { type: 'string' }, seconds: { type: 'string' } },
  async run(given, output) {
    const written = needed(given, 'link');
    if (!written.ok) return wrongUse(output, written.problem);
    const link = parseLink(written.value);
    if (!link.ok) return wrongUse(output, ofOption('link', link.problem));
    const there = needed(given, 'seconds');
    if (!there.ok) return wrongUse(output, there.problem);
    const seconds = numberOption(given, 'seconds', { least: 0.2, most: 600 });
    if (!seconds.ok) return wrongUse(output, seconds.problem);
    output.say(`Listening for ${there.value} s; move the spindle …`);
    const onAttempt = (attempt: Attempt): void => sayAttempt(attempt, output);
    const learned = await learnGauge({ link: written.value, seconds: seconds.value ?? 0, onAttempt });
    if (!learned.ok) return noAnswer(output, learned.problem);
    output.answer(answerOf(learned.value));
    for (const doubt of learned.value.doubts) output.say(doubtInWords[doubt]);
    return learned.value.sure ? 0 : 1;
  },
};

function sayAttempt({ link, heard }: Attempt, output: Output): void {
  if (heard === undefined) return;
  const share = Math.round(heard.likeText * 100);
  output.say(`${link}: ${heard.bytes} bytes${heard.bytes === 0 ? '' : `, ${share} % of them like text`}.`);
}

const answerOf = ({ link, format, confidence, samples, alternatives }: GaugeLearned) => ({
  link,
  format,
  confidence,
  samples: samples.map(({ raw, value, unit }) => ({ raw: Buffer.from(raw).toString('latin1'), value, unit })),
  alternatives,
});
