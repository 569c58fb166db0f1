import type { LimitJudged } from '../../job/checks/judge.ts';
import { type Cell, cell } from './page.ts';
import type { CertificateAssembly, CertificateCheck, CertificateContent } from './content.ts';

/** Where limits come from and what was measured with, each once: rows name them by number and letter. */
export interface References {
  readonly sources: readonly string[];
  /** Gauges and tools by their label, in the order in which they were first used. */
  readonly tools: readonly string[];
}

export function referencesOf({ assemblies }: Pick<CertificateContent, 'assemblies'>): References {
  const sources = new Set<string>();
  const tools = new Set<string>();
  for (const { checks } of assemblies) {
    for (const { limits, measurement } of checks) {
      for (const { limit } of limits) sources.add(limit.source);
      const tool = toolOf(measurement);
      if (tool !== undefined) tools.add(tool);
    }
  }
  return { sources: [...sources], tools: [...tools] };
}

/** What a measurement was taken with; nothing for what was only seen. */
export function toolOf(measurement: CertificateCheck['measurement']): string | undefined {
  const how = measurement?.how;
  if (how === undefined || how.kind === 'seen') return undefined;
  return how.gauge?.label ?? (how.kind === 'typed' ? how.tool : undefined);
}

/** "1" or "1, 3". */
export function sourceCell({ sources }: References, limits: readonly LimitJudged[]): Cell {
  const numbers = new Set(limits.map(({ limit }) => sources.indexOf(limit.source) + 1));
  return cell([...numbers].filter((one) => one > 0).join(', '));
}

/** "a", "a typed" or "seen"; beneath it when, and in which assembly where it carries over. */
export function takenBy(
  { tools }: References,
  { measurement, carriedFrom }: CertificateCheck,
  { at }: Pick<CertificateAssembly, 'at'>,
): Cell {
  if (measurement === undefined) return cell('–');
  const tool = toolOf(measurement);
  const letter = tool === undefined ? 'seen' : letterOf(tools.indexOf(tool));
  const typed = measurement.how.kind === 'typed' ? `${letter}, typed` : letter;
  const day = measurement.at.slice(0, 10) === at.slice(0, 10) ? '' : `${measurement.at.slice(5, 10)} `;
  const when = carriedFrom === undefined ? '' : carriedFrom.toLowerCase();
  return cell(`${typed} · ${day}${measurement.at.slice(11, 16)}`, when === '' ? {} : { under: when });
}

/** a to z, then aa: more tools than letters are rare, and still told apart. */
export const letterOf = (index: number): string =>
  index < 26 ? String.fromCodePoint(97 + index) : `${letterOf(Math.floor(index / 26) - 1)}${letterOf(index % 26)}`;
