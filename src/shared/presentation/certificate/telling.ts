import { assemblyBlocks } from './assembly.ts';
import { axleBlocks, shimBlocks } from './axle.ts';
import { closingBlocks, gaugeBlocks, noteBlocks, type Signed, sourceBlocks } from './closing.ts';
import type { CertificateContent } from './content.ts';
import { glanceBlocks, missingOnFirst } from './glance.ts';
import { groundBlocks } from './grounds.ts';
import { photoBlocks } from './photos.ts';
import { progressBlocks } from './progress.ts';
import { referencesOf } from './references.ts';
import { type Block, type CertificateLook, heading, list } from './page.ts';

/**
 * All that a certificate says, in reading order: a page for the customer, what it rests on, how it got there; on request every
 * assembly in full behind them. A function of the record, the look and nothing else.
 */
export function certificateBlocks(
  content: CertificateContent,
  { units, everything = false }: CertificateLook,
  signed: Signed,
): readonly Block[] {
  const references = referencesOf(content);
  return [
    ...glanceBlocks(content, signed, units),
    { kind: 'page' },
    ...allMissing(content),
    ...groundBlocks(content, references, units),
    ...progressBlocks(content, units),
    ...gaugeBlocks(content, references),
    ...sourceBlocks(references),
    ...noteBlocks(content),
    ...closingBlocks(content, signed),
    ...photoBlocks(content, everything),
    ...(everything ? everyAssembly(content, units) : []),
  ];
}

const everyAssembly = (content: CertificateContent, units: CertificateLook['units']): readonly Block[] => [
  { kind: 'page' },
  ...axleBlocks(content, units),
  ...shimBlocks(content, units),
  ...content.assemblies.flatMap((assembly) => assemblyBlocks(content, assembly, units)),
];

/** The whole list where the first page had no room for it. */
const allMissing = ({ missing }: CertificateContent): readonly Block[] =>
  missing.length > missingOnFirst + 1 ? [heading(2, 'What is missing'), ...list(missing)] : [];
