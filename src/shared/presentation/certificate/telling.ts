import { assemblyBlocks } from './assembly.ts';
import { axleBlocks, shimBlocks } from './axle.ts';
import { closingBlocks, gaugeBlocks, noteBlocks, type Signed } from './closing.ts';
import type { CertificateContent } from './content.ts';
import { glanceBlocks, missingOnFirst } from './glance.ts';
import { type Block, type CertificateLook, heading, list } from './page.ts';

/** All that a certificate says, in reading order. A function of the record, the units and nothing else. */
export function certificateBlocks(
  content: CertificateContent,
  { units }: CertificateLook,
  signed: Signed,
): readonly Block[] {
  return [
    ...glanceBlocks(content, units),
    { kind: 'page' },
    ...allMissing(content),
    ...axleBlocks(content, units),
    ...shimBlocks(content, units),
    ...content.assemblies.flatMap((assembly) => assemblyBlocks(content, assembly, units)),
    ...gaugeBlocks(content),
    ...noteBlocks(content),
    ...closingBlocks(content, signed),
  ];
}

/** The whole list where the first page had no room for it. */
const allMissing = ({ missing }: CertificateContent): readonly Block[] =>
  missing.length > missingOnFirst + 1 ? [heading(2, 'What is missing'), ...list(missing)] : [];
