import { describe, expect, it } from 'vitest';
import { certificatePdf } from '../../../../src/main/certificate/pdf.ts';
import { certificateContent } from '../../../../src/shared/certificate/content.ts';
import { wholeNotebook } from '../../../support/records/wholeBuild.ts';

const content = certificateContent({ id: 'b1', entries: wholeNotebook({ trials: 1, stations: 4 }) });

describe('the certificate as a PDF', { timeout: 60_000 }, () => {
  it('gives the same bytes for the same content and look', async () => {
    const look = { page: 'a4', units: 'metric' } as const;
    expect((await certificatePdf(content, look)).equals(await certificatePdf(content, look))).toBe(true);
  });
});
