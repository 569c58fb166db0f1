import type { LineFormat } from '../../../shared/gauges/lineFormat.ts';
import { ok, type Result } from '../../../shared/basics/result.ts';
import { refuse } from './refuse.ts';

const STX = '\u0002';
const ETX = '\u0003';
const checks = { none: 'none', 'sum-hex': 'sum', 'xor-hex': 'xor' } as const;

/** What stands around every line. */
export interface Frame {
  /** STX before and ETX after, as the simulated gauges write them: always both. */
  readonly framed: boolean;
  readonly end: '\r\n' | '\r' | '\n' | '';
  readonly check: 'none' | 'sum' | 'xor';
  /** A start mark that is written as the first text of the line. */
  readonly mark: string;
  /** Characters before that text which stay in the line when it is read: an STX that is no start mark. */
  readonly lead: number;
}

/** The frame that a format asks for, as far as simulated gauges have it. */
export function frameFor({ lineEnd, start, label, checksum }: LineFormat): Result<Frame> {
  const framed = lineEnd.startsWith(ETX);
  const end = endOf(lineEnd);
  if (end === undefined) return refuse('lineEnd', 'lines end with CR, LF, both, or ETX and one of these');
  const mark = framed && start === STX ? '' : (start ?? '');
  const lead = framed && start === undefined ? 1 : 0;
  if (lead > 0 && label !== undefined) return refuse('label', 'STX stands before it; make that the start mark');
  // Their check characters cover everything between STX and themselves, ours everything after the start mark.
  if (checksum.is !== 'none' && (mark !== '' || lead > 0))
    return refuse('checksum', 'check characters go with lines from STX to ETX, or with lines that have neither');
  return ok({ framed, end, check: checks[checksum.is], mark, lead });
}

function endOf(lineEnd: string): Frame['end'] | undefined {
  const rest = lineEnd.startsWith(ETX) ? lineEnd.slice(1) : lineEnd === 'any' ? '\r\n' : lineEnd;
  if (rest === '' && lineEnd !== '') return '';
  return rest === '\r\n' || rest === '\r' || rest === '\n' ? rest : undefined;
}
