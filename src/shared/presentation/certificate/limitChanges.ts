import type { UnitSystem } from '../../basics/show.ts';
import type { LimitsChanged, LineChange } from '../../job/checks/limitChanges.ts';
import type { SpecSheet } from '../../job/records/specSheet.ts';
import { limitChangeWords } from '../words/limits.ts';
import { paperTimeText } from '../words/days.ts';
import type { CertificateAssembly, CertificateContent } from './content.ts';
import { type Block, heading, list } from './page.ts';

/** Limits that changed after something had been held against them: when, by whom, what, why, and what it did. */
export function limitChangeBlocks(
  { limitChanges }: Pick<CertificateContent, 'limitChanges'>,
  system: UnitSystem,
): readonly Block[] {
  if (limitChanges === undefined) return [];
  return [heading(3, 'Limits changed after readings'), ...list(limitChanges.map((one) => changeSentence(one, system)))];
}

function changeSentence({ at, by, why, holds, lines, ruleWas, readings }: LimitsChanged, system: UnitSystem): string {
  const what = [
    ...lines.map((line: LineChange) => limitChangeWords(line, system)),
    ...(ruleWas === undefined ? [] : ['the rule that decides']),
  ].join('; ');
  const held = readings.length === 0 ? 'nothing yet' : readings.join(', ');
  const effect =
    holds === 'from-the-start'
      ? `A correction: what was read before is held against the new limit (${held}).`
      : `It holds for what was read from then on; what was read before keeps its limit (${held}).`;
  return `${paperTimeText(at)}, ${by}: ${what}. ${effect} Reason given: ${why}`;
}

/** The limits that the readings of one assembly are held against; they may have changed since. */
export const sheetHeld = (
  { specSheet }: Pick<CertificateContent, 'specSheet'>,
  { checks }: Pick<CertificateAssembly, 'checks'>,
): { readonly specSheet?: SpecSheet } =>
  specSheet === undefined
    ? {}
    : { specSheet: { ...specSheet, limits: checks.flatMap(({ limits }) => limits.map(({ limit }) => limit)) } };
