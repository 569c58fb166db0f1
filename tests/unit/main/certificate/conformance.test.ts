import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type CertificateLook, certificatePdf } from '../../../../src/main/certificate/pdf.ts';
import { temporaryFolder } from '../../../support/folder.ts';
import { issued, testBench } from '../../../support/records/issued.ts';
import { leaves, wholeNotebook } from '../../../support/records/wholeBuild.ts';

/** Where Debian puts what `apt install libpdfbox2-java libcommons-logging-java libactivation-java libjaxb-api-java` brings. */
const jars = [
  'preflight',
  'pdfbox2',
  'xmpbox',
  'fontbox2',
  'commons-logging',
  'commons-io',
  'javax.activation',
  'jaxb-api',
]
  .map((name) => `/usr/share/java/${name}.jar`)
  .filter((jar) => existsSync(jar));
const hasPreflight = jars.length === 8 && spawnSync('java', ['-version']).error === undefined;
const hasVera = spawnSync('verapdf', ['--version']).error === undefined;

// A test that is skipped says so: which program is not there.
if (!hasPreflight) process.stderr.write('PDF/A is not judged by Preflight: PDFBox 2 is not installed here\n');
if (!hasVera) process.stderr.write('PDF/A is not judged by veraPDF: it is not installed here\n');

/**
 * Preflight judges by PDF/A-1 (ISO 19005-1), and knows no later part. What part 3 allows and part 1 forbids is left out here,
 * rule by rule, and nothing else.
 */
const allowedInPart3 = [
  // The file says that it is of part 3.
  /^7\.11\.2 : Error on MetaData, part must be 1$/u,
  // ISO 19005-3, 6.8: files may be embedded. ISO 19005-1, 6.1.11 forbids it.
  /^1\.4\.7 : Trailer Syntax error, EmbeddedFile entry is present in the Names dictionary$/u,
  /^1\.2\.9 : Body Syntax error, EmbeddedFile entry is present in a FileSpecification dictionary$/u,
  // ISO 19005-2 and -3, 6.2.10: transparency may be used. ISO 19005-1, 6.4 forbids it.
  /^4\.1\.2 : Transparency error, (?:CA|ca) entry in a ExtGState is invalid on page \d+$/u,
  // ISO 19005-2 and -3, 6.2.11.4.2: a CIDSet need not be there. ISO 19005-1, 6.3.5 asks for it.
  /^3\.1\.11 : Invalid Font definition, [A-Z]{6}\+Inter-\w+: The CIDSet entry is missing for the Composite Subset$/u,
];

const samples: readonly (readonly [string, CertificateLook, ReturnType<typeof wholeNotebook>])[] = [
  ['complete', { page: 'a4', units: 'metric' }, wholeNotebook({ trials: 2, stations: 12 })],
  [
    'incomplete and with everything',
    { page: 'letter', units: 'inch', everything: true },
    wholeNotebook({ trials: 1, stations: 4, without: leaves('total-torque', 'mark') }),
  ],
];

async function written(entries: ReturnType<typeof wholeNotebook>, look: CertificateLook): Promise<string> {
  const file = join(temporaryFolder(), 'certificate.pdf');
  writeFileSync(file, await certificatePdf(issued(entries), look, testBench));
  return file;
}

describe('the format, as other programs judge it', { timeout: 120_000 }, () => {
  it.skipIf(!hasPreflight).each(samples)(
    '%s: PDFBox Preflight finds nothing that PDF/A-3 forbids',
    async (_name, look, entries) => {
      const file = await written(entries, look);
      const words = ['-cp', jars.join(':'), 'org.apache.pdfbox.preflight.Validator_A1b', file];
      const { stdout, stderr } = spawnSync('java', words, { encoding: 'utf8' });
      const found = `${stdout}\n${stderr}`.split('\n').filter((line) => /^\d+(?:\.\d+)* : /u.test(line));
      // It did look: of part 3 it always finds that it is not part 1.
      expect(found.some((line) => line.startsWith('7.11.2'))).toBe(true);
      expect(found.filter((line) => !allowedInPart3.some((rule) => rule.test(line)))).toEqual([]);
    },
  );

  it.skipIf(!hasVera).each(samples)('%s: veraPDF takes it for PDF/A-3b', async (_name, look, entries) => {
    const answer = execFileSync('verapdf', ['--flavour', '3b', '--format', 'text', await written(entries, look)]);
    expect(answer.toString('utf8')).toMatch(/^PASS/mu);
  });
});
