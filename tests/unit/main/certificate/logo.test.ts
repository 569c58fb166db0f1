import { describe, expect, it } from 'vitest';
import { logoOf } from '../../../../src/main/certificate/logo.ts';
import { verifyCertificate } from '../../../../src/main/certificate/verify.ts';
import { certificatePdf } from '../../../../src/main/certificate/pdf.ts';
import { plainJpeg } from '../../../support/photos.ts';
import { issued, testBench } from '../../../support/records/issued.ts';
import { described, notebook, trial } from '../../../support/records/scenario.ts';

const jpeg = plainJpeg(240, 80);
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

describe('the logo of a shop', () => {
  it('is a whole JPEG of a size for the head of a page', () => {
    expect(logoOf(base64(jpeg))).toMatchObject({ width: 240, height: 80 });
    expect(logoOf('')).toBeUndefined();
    expect(logoOf(base64(plainJpeg(1300, 100)))).toBeUndefined();
    expect(logoOf(base64(plainJpeg(100, 700)))).toBeUndefined();
  });

  it.each([
    ['cut short', jpeg.subarray(0, jpeg.length / 2)],
    ['with its end put behind half of it', Buffer.concat([jpeg.subarray(0, 40), Buffer.from('ffd9', 'hex')])],
    ['another kind of picture', Buffer.from('89504e470d0a1a0a', 'hex')],
    ['words', Buffer.from('a logo')],
  ])('is left out where it is %s', (_what, bytes) => {
    expect(logoOf(base64(bytes))).toBeUndefined();
  });

  it('stands on the page, is signed with it, and is drawn again from the data alone', async () => {
    const { data, csv } = issued(notebook(described, trial));
    const logo = logoOf(base64(jpeg));
    const shop = { name: 'Example Works', ...(logo === undefined ? {} : { logo }) };
    const look = { page: 'a4', units: 'metric' } as const;
    const pdf = await certificatePdf({ data: { ...data, shop }, csv }, look, testBench);
    expect(pdf.toString('latin1')).toMatch(/\/Subtype \/Image/u);
    expect(pdf.toString('latin1')).toContain('/Alt (Logo of Example Works)');
    expect(await verifyCertificate(pdf)).toMatchObject({ ok: true, value: { holds: true, sameWordsToday: true } });
    // A logo that somebody signed and no program can draw is no reason to fail: it is drawn otherwise, and that is told.
    const broken = { name: 'Example Works', logo: { jpeg_base64: base64(Buffer.from('none')), width: 2, height: 2 } };
    await expect(certificatePdf({ data: { ...data, shop: broken }, csv }, look, testBench)).rejects.toThrow();
  });
});
