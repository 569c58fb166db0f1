import { decodeBytes, encodeBytes, encodePath } from '../../../../shared/gauges/linkOptions.ts';
import {
  type Asking,
  askingOf,
  type Link,
  linkText,
  parseLink,
  type SerialLink,
} from '../../../../shared/gauges/link.ts';
import type { ModbusLink } from '../../../../shared/gauges/modbus/modbusLink.ts';
import { ok } from '../../../../shared/basics/result.ts';
import { type DraftRead, type FieldErrors, wrong } from '../../../parts/draft.ts';
import { noCase } from '../../../../shared/basics/noCase.ts';

/** A handshake line: held on, held off, or left as the computer has it. */
type LineFlag = 'as-it-is' | '1' | '0';

/** How a gauge is reached, while it is being filled in: every setting as it stands in its field. */
export interface LinkDraft {
  readonly sort: Link['kind'] | 'none';
  readonly path: string;
  readonly baud: string;
  readonly bits: `${SerialLink['bits']}`;
  readonly parity: SerialLink['parity'];
  readonly stop: `${SerialLink['stop']}`;
  readonly dtr: LineFlag;
  readonly rts: LineFlag;
  readonly host: string;
  readonly port: string;
  readonly sends: 'by-itself' | 'asked';
  /** The request without its end. */
  readonly ask: string;
  readonly askEnd: string;
  readonly askEvery: string;
  readonly unit: string;
  readonly register: string;
  readonly function: `${ModbusLink['function']}`;
  readonly type: ModbusLink['type'];
  readonly order: ModbusLink['order'];
  readonly scale: string;
  readonly every: string;
  /** The whole link as it is being written by hand; it goes before the fields until one of them is changed. */
  readonly written?: string | undefined;
}

/** The options of a link that have a field of their own; `link` stands for the whole. */
const named = [
  ...(['path', 'baud', 'bits', 'parity', 'stop', 'dtr', 'rts', 'host', 'port', 'ask', 'askEvery'] as const),
  ...(['unit', 'register', 'function', 'type', 'order', 'scale', 'every'] as const),
];
export type LinkField = (typeof named)[number] | 'link';
export type LinkErrors = FieldErrors<LinkField>;

/** What most gauges are set to; the same figures that a link has where nothing is said. */
const usualDraft: LinkDraft = {
  sort: 'serial',
  path: '',
  baud: '9600',
  bits: '8',
  parity: 'none',
  stop: '1',
  dtr: 'as-it-is',
  rts: 'as-it-is',
  host: '',
  port: '',
  sends: 'by-itself',
  ask: '',
  askEnd: '\r',
  askEvery: '200',
  unit: '1',
  register: '0',
  function: '3',
  type: 's16',
  order: 'high-first',
  scale: '1',
  every: '100',
};

export const lineEnds = ['\r', '\n', '\r\n', ''] as const;

/**
 * The fields of a link. What it does not speak of keeps its usual value, ready for another sort of link. A sort alone (`tcp:`) is
 * one that has still to be filled in.
 */
export function linkDraftOf(text: string): LinkDraft {
  if (text.trim() === '') return { ...usualDraft, sort: 'none' };
  const bare = (['serial', 'tcp', 'modbus'] as const).find((sort) => text === `${sort}:`);
  if (bare !== undefined) return { ...usualDraft, sort: bare };
  const read = parseLink(text);
  return read.ok ? { ...usualDraft, ...fieldsOf(read.value) } : { ...usualDraft, written: text };
}

function fieldsOf(link: Link): Partial<LinkDraft> & Pick<LinkDraft, 'sort'> {
  switch (link.kind) {
    case 'keyboard':
      return { sort: 'keyboard' };
    case 'tcp':
      return { sort: 'tcp', host: link.host, port: String(link.port), ...askFields(link) };
    case 'serial': {
      const { path, bits, dtr, rts } = link;
      const lines = { dtr: flagText(dtr), rts: flagText(rts) };
      return { sort: 'serial', path, bits: `${bits}`, ...lines, ...lineFields(link), ...askFields(link) };
    }
    case 'modbus': {
      const { path, type, order } = link;
      const numbers: Partial<LinkDraft> = {
        unit: String(link.unit),
        register: String(link.register),
        function: `${link.function}`,
        scale: String(link.scale),
        every: String(link.every_ms),
      };
      return { sort: 'modbus', path, type, order, ...numbers, ...lineFields(link) };
    }
    default:
      throw noCase(link);
  }
}

const flagText = (flag: boolean | undefined): LineFlag => (flag === undefined ? 'as-it-is' : flag ? '1' : '0');

const lineFields = ({ baud, parity, stop }: Extract<Link, { readonly baud: number }>): Partial<LinkDraft> => ({
  baud: String(baud),
  parity,
  stop: `${stop}`,
});

function askFields(link: Link & Asking): Partial<LinkDraft> {
  const { ask, every_ms = usualDraft.askEvery } = askingOf(link);
  if (ask === undefined) return {};
  const askEnd = lineEnds.toSorted((a, b) => b.length - a.length).find((end) => ask.endsWith(end)) ?? '';
  return {
    sends: 'asked',
    ask: shownBytes(ask.slice(0, ask.length - askEnd.length)),
    askEnd,
    askEvery: String(every_ms),
  };
}

/** A request as it is read and typed: bytes that are no visible character are written %1B. */
const shownBytes = (bytes: string): string =>
  bytes.replaceAll(/[^\u0020-\u007E]|%/gu, (byte) => encodeBytes(byte)).replaceAll(/^ | $/gu, '%20');

/** The link that the fields stand for, or what is wrong with it, each at its field. `none` is no link at all. */
export function readLinkDraft(draft: LinkDraft): DraftRead<string, LinkErrors> {
  if (draft.written === undefined && draft.sort === 'none') return ok('');
  const read = parseLink(draft.written ?? writtenOut(draft));
  if (read.ok) return ok(linkText(read.value));
  const errors: Partial<Record<LinkField, string>> = {};
  for (const { field, sentence, remedy } of read.problems ?? []) {
    const at = draft.written === undefined ? fieldNamed(draft, field) : 'link';
    errors[at] ??= `${draft.written === undefined ? '' : `${sentence} `}${remedy}`;
  }
  return wrong(errors);
}

/** Both sorts of asking have their `every`; the fields are two, so that each keeps its usual value. */
function fieldNamed({ sort }: LinkDraft, option = 'link'): LinkField {
  if (option === 'every' && sort !== 'modbus') return 'askEvery';
  return named.find((field) => field === option) ?? 'link';
}

/** The fields of this sort as a link, nothing left out and nothing mended: what is wrong is found by reading it. */
function writtenOut(draft: LinkDraft): string {
  const options = optionsOf(draft).map((name) => `${name}=${encodeBytes(valueOf(draft, name))}`);
  if (draft.sends === 'asked' && (draft.sort === 'serial' || draft.sort === 'tcp')) {
    const ask = encodeBytes(decodeBytes(draft.ask.trim()) + draft.askEnd);
    options.push(`ask=${ask}`, `every=${encodeBytes(draft.askEvery.trim())}`);
  }
  return `${placeOf(draft)}${options.length === 0 ? '' : `?${options.join('&')}`}`;
}

function placeOf({ sort, path, host, port }: LinkDraft): string {
  if (sort === 'keyboard') return 'keyboard:';
  if (sort === 'tcp') return `tcp://${encodePath(host.trim())}:${encodePath(port.trim())}`;
  return `${sort}:${encodePath(path.trim())}`;
}

type LinkOption = Exclude<LinkField, 'link' | 'path' | 'host' | 'port' | 'ask' | 'askEvery'>;

function optionsOf({ sort }: LinkDraft): readonly LinkOption[] {
  if (sort === 'serial') return ['baud', 'bits', 'parity', 'stop', 'dtr', 'rts'];
  if (sort !== 'modbus') return [];
  return ['baud', 'parity', 'stop', 'unit', 'register', 'function', 'type', 'order', 'scale', 'every'];
}

/** A comma is a decimal sign at half the benches of the world. */
const valueOf = (draft: LinkDraft, name: LinkOption): string =>
  name === 'scale' ? draft.scale.trim().replace(',', '.') : draft[name].trim();
