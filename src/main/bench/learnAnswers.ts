import type { BenchAnswers } from '../../shared/contract/contract.ts';
import type { AttemptHeard, LearnedAnswer } from '../../shared/contract/learning.ts';
import { doubtInWords } from '../../shared/gauges/learn/learned.ts';
import { showRaw } from '../../shared/gauges/text.ts';
import { parseLink } from '../../shared/gauges/link.ts';
import { fail, ok, type Problem } from '../../shared/basics/result.ts';
import { type Attempt, type GaugeLearned, learnGauge } from '../gauges/learn/learnGauge.ts';
import { readRegisters } from '../gauges/links/readRegisters.ts';
import { type GaugeDesk, plugInAgain } from './gaugeAnswers.ts';
import { linkInReach } from './reach.ts';

/** Learning a gauge from the screen: told attempt by attempt. The gauge itself is put away for as long. */
export function learnAnswers(desk: GaugeDesk): Pick<BenchAnswers, 'gauges.learn' | 'gauges.registers'> {
  return {
    'gauges.registers': async ({ link }) => {
      const reached = linkInReach(link);
      if (!reached.ok) return reached;
      const asked = reached.value;
      if (asked.kind !== 'modbus') return fail(noRegisters);
      const away = pluggedInAt(desk, asked.path);
      for (const gauge of away) await desk.gauges.disconnect(gauge);
      const words = await readRegisters(asked);
      for (const gauge of away) plugInAgain(desk, gauge);
      return words.ok ? ok({ first: asked.register, words: [...words.value] }) : words;
    },
    'gauges.learn': async ({ gauge, link, seconds }) => {
      const reached = linkInReach(link);
      if (!reached.ok) return reached;
      const wasIn = desk.gauges.states().some((state) => state.gauge === gauge);
      if (gauge !== undefined) await desk.gauges.disconnect(gauge);
      const onAttempt = (attempt: Attempt): void => desk.outlet.tell('learning', attemptOf(attempt));
      const learned = await learnGauge({ link, seconds, onAttempt });
      if (wasIn && gauge !== undefined) plugInAgain(desk, gauge);
      return learned.ok ? ok(answerOf(learned.value)) : learned;
    },
  };
}

/** The gauges that are read at a port now: it can be opened once only. */
function pluggedInAt(desk: GaugeDesk, path: string): readonly string[] {
  const open = new Set(desk.gauges.states().map(({ gauge }) => gauge));
  return desk.gaugeRecords.list().flatMap(({ id, link }) => {
    const own = link === undefined ? undefined : parseLink(link);
    return open.has(id) && own?.ok === true && 'path' in own.value && own.value.path === path ? [id] : [];
  });
}

const noRegisters: Problem = {
  kind: 'no-registers',
  field: 'link',
  sentence: 'Only a gauge over Modbus has registers.',
  remedy: 'Choose Modbus as the way it is reached.',
};

const attemptOf = ({ link, heard }: Attempt): AttemptHeard => ({
  link,
  ...(heard === undefined
    ? {}
    : { heard: { bytes: heard.bytes, likeText: heard.likeText, sample: shown(heard.sample) } }),
});

const answerOf = (learned: GaugeLearned): LearnedAnswer => ({
  link: learned.link,
  format: learned.format,
  sure: learned.sure,
  doubts: learned.doubts.map((doubt) => doubtInWords[doubt]),
  samples: learned.samples.map(({ raw, value, unit }) => ({ raw: shown(raw), value, unit })),
  attempts: learned.attempts.map(attemptOf),
  alternatives: [...learned.alternatives],
});

/** The screens' letters have no pictures of control characters: they are named. */
const shown = (bytes: Uint8Array): string =>
  showRaw(bytes).replaceAll(/[\u2400-\u241f]/gu, (picture) => {
    const code = picture.charCodeAt(0) - 0x24_00;
    return `\u2039${names.get(code) ?? code.toString(16).toUpperCase().padStart(2, '0')}\u203a`;
  });

const names: ReadonlyMap<number, string> = new Map([
  [0x02, 'STX'],
  [0x03, 'ETX'],
  [0x0a, 'LF'],
  [0x0d, 'CR'],
]);
