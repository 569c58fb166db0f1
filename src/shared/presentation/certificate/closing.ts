import type { QuantityTyped } from '../../basics/recorded.ts';
import { standing } from '../../job/records/notebook.ts';
import { asEntered } from './checkTable.ts';
import type { Shop } from '../../job/certifying/certificateData.ts';
import type { CertificateContent, CertificateGauge } from './content.ts';
import { dayText, paperTimeText } from '../words/days.ts';
import { type Block, type Cell, cell, heading, list, words, wordColumn } from './page.ts';
import { letterOf, type References } from './references.ts';
import { topicTerms } from './terms.ts';

/** Every gauge and tool with its serial number, resolution and calibration. */
export function gaugeBlocks(content: CertificateContent, { tools }: References = noReferences): readonly Block[] {
  const rows = [...content.gauges.map(gaugeRow), ...bareTools(content)].map(([name, ...rest]) => [
    lettered(name, tools),
    ...rest,
  ]);
  if (rows.length === 0) return [];
  return [
    heading(3, 'Gauges and tools'),
    {
      kind: 'table',
      columns: [
        wordColumn('Gauge or tool', 3),
        wordColumn('Serial number', 2),
        wordColumn('Reads to', 1.5),
        wordColumn('Stated error', 1.8),
        wordColumn('Calibrated', 1.8),
        wordColumn('Calibration due', 2.6),
      ],
      rows,
    },
  ];
}

const noReferences: References = { sources: [], tools: [] };

/** With the letter by which rows of the tables name it. */
function lettered(name: Cell | undefined, tools: readonly string[]): Cell {
  const index = tools.indexOf(name?.text ?? '');
  return index < 0 || name === undefined ? (name ?? cell('')) : { ...name, text: `${letterOf(index)} · ${name.text}` };
}

/** Where the limits come from, by the numbers that rows name. */
export function sourceBlocks({ sources }: References): readonly Block[] {
  if (sources.length === 0) return [];
  return [
    heading(3, 'Sources of the limits, as typed in'),
    ...list(sources, { mark: (index) => `${index + 1}`, quiet: true }),
  ];
}

const notOnRecord = 'not on record';

function gaugeRow({ gauge, typed, calibration }: CertificateGauge): readonly Cell[] {
  return [
    nameCell(gauge, typed),
    cell(gauge.serial === undefined || gauge.serial === '' ? notOnRecord : gauge.serial),
    cell(asEntered(gauge.resolution)),
    cell(errorWords(gauge)),
    cell(gauge.calibratedOn === undefined ? notOnRecord : dayText(gauge.calibratedOn)),
    gauge.dueOn === undefined
      ? cell(notOnRecord)
      : calibration === 'past'
        ? cell(dayText(gauge.dueOn), { shape: 'outside', under: 'past when it was used' })
        : cell(dayText(gauge.dueOn)),
  ];
}

/** A gauge whose daily check had found something wrong when it was used says so at its name. */
function nameCell(gauge: CertificateGauge['gauge'], typed: boolean): Cell {
  const { failedCheck } = gauge;
  if (failedCheck !== undefined)
    return cell(gauge.label, {
      shape: 'outside',
      under: `failed its check on ${dayText(failedCheck.at.slice(0, 10))}`,
    });
  return cell(gauge.label, typed ? { under: 'typed readings' } : {});
}

function errorWords({ statedError, statedError_percent }: CertificateGauge['gauge']): string {
  if (statedError !== undefined) return `± ${asEntered(statedError)}`;
  return statedError_percent === undefined ? notOnRecord : `± ${statedError_percent} %`;
}

/** Tools of typed readings that the shop keeps no record of: each once. */
function bareTools(content: CertificateContent): readonly (readonly Cell[])[] {
  const tools = new Map<string, { readonly tool: string; readonly resolution: QuantityTyped }>();
  for (const { deed } of standing(content.notebook)) {
    if (deed.kind !== 'measured' || deed.how.kind !== 'typed' || deed.how.gauge !== undefined) continue;
    const { tool, resolution } = deed.how;
    tools.set(JSON.stringify([tool, resolution]), { tool, resolution });
  }
  return [...tools.values()].map(({ tool, resolution }) => [
    cell(tool, { under: 'typed readings' }),
    cell(notOnRecord),
    cell(asEntered(resolution)),
    cell(notOnRecord),
    cell(notOnRecord),
    cell(notOnRecord),
  ]);
}

/** What no gauge reads. */
export function noteBlocks({ notes }: CertificateContent): readonly Block[] {
  if (notes.length === 0) return [];
  return [
    heading(3, 'Notes'),
    ...list(
      notes.map(({ topic, text, by, at }) => `${topicTerms[topic]} (${by}, ${paperTimeText(at)}): ${text}`),
      { quiet: true },
    ),
  ];
}

/** By what a certificate can be known again, and which bench vouches for it. */
export interface Signed {
  readonly sha256: string;
  /** Name of the bench, and the fingerprint of its key. */
  readonly bench: string;
  readonly fingerprint: string;
  readonly revision: number;
  /** The shop whose paper it is. */
  readonly shop?: Shop | undefined;
  /** SHA-256 of the certificate that this one replaces. */
  readonly replaces?: string | undefined;
}

/** How anyone can check the certificate. */
export function closingBlocks(content: CertificateContent, signed: Signed): readonly Block[] {
  return [
    heading(3, 'How to check this certificate'),
    words(
      `Everything on these pages is drawn from certificate.json, attached to this file with the whole notebook of the build; the readings are in readings.csv beside it. Its SHA-256 stands at the foot of every page. ${signedWords(signed)}`,
      'quiet',
    ),
    ...struckWords(content),
  ];
}

function struckWords({ notebook }: CertificateContent): readonly Block[] {
  const struck = notebook.filter(({ deed }) => deed.kind !== 'struck').length - standing(notebook).length;
  if (struck === 0) return [];
  const entries = struck === 1 ? 'One entry of the notebook was' : `${struck} entries of the notebook were`;
  return [
    words(`${entries} struck through; they stay readable in the attached data and count for nothing here.`, 'quiet'),
  ];
}

/** Who signed it, and what it takes the place of. */
function signedWords({ bench, fingerprint, revision, replaces }: Signed): string {
  const instead = replaces === undefined ? '' : ` It is revision ${revision} and replaces ${replaces.slice(0, 12)}….`;
  return `Signed by ${bench} (Ed25519). The fingerprint of its key is ${fingerprint}; ask the shop whether that is theirs.${instead}`;
}
