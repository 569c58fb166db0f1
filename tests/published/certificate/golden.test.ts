import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readAttachments } from '../../../src/main/certificate/attachment.ts';
import { verifyCertificate } from '../../../src/main/certificate/verify.ts';

/**
 * One certificate of every edition, as the program of its day issued it; none is ever made anew. edition-1.pdf: the demo of
 * 0.1.0 as it was first released, before certificates had readings or signatures in them. edition-2.pdf: the demo
 * of the day on which they first had both. edition-3.pdf: the demo of the day on which the code of the measuring was named in them.
 * edition-4.pdf: the demo of the day on which photos came into them and that code was named without its comments. edition-5.pdf: the
 * demo of the day on which what was found stood there in the words of the answer.
 */
const golden = (name: string): Buffer => readFileSync(join(import.meta.dirname, name));

const dataIn = (pdf: Buffer): string => {
  const read = readAttachments(pdf);
  return read.ok ? (read.value.files.get('certificate.json')?.bytes.toString('utf8') ?? '') : '';
};

type Json = Record<string, unknown>;

describe('the certificate of edition 1', () => {
  const pdf = golden('edition-1.pdf');

  it('verifies for ever, by its own edition', async () => {
    expect(await verifyCertificate(pdf)).toMatchObject({
      ok: true,
      value: {
        holds: true,
        sha256: '503d0cd7f17fa0ab94e0de78f8e12b08c6203e268af54cb21ac3a7614884c8e1',
        edition: '1',
        complete: true,
        signedBy: { none: 'unsigned' },
        recomputed: { none: 'no-readings' },
        sameWordsToday: false,
      },
    });
  });

  it('verifies as bare data, written in whatever way', async () => {
    const data = dataIn(pdf);
    for (const text of [data, JSON.stringify(JSON.parse(data), undefined, 2)])
      expect(await verifyCertificate(Buffer.from(text))).toMatchObject({ ok: true, value: { from: 'json' } });
  });

  it.each([
    ['a verdict', (data: Json) => void (data['complete'] = false)],
    ['a title that its notebook does not have', (data: Json) => void ((data['build'] as Json)['title'] = 'Another')],
    ['a member that does not belong', (data: Json) => void (data['more'] = 1)],
    ['a limit', (data: Json) => void ((data['specSheet'] as Json)['rule'] = 'guarded')],
    ['a note', (data: Json) => void (data['notes'] as Json[]).pop()],
    ['a mean that is not that of its stations', (data: Json) => void (firstBacklash(data)['mean_mm'] = 0.2)],
    ['a smallest beyond its stations', (data: Json) => void (firstBacklash(data)['min_mm'] = 0.21)],
  ])('does not hold with %s changed in its data', async (_what, change) => {
    const data = JSON.parse(dataIn(pdf)) as Json;
    change(data);
    expect(await verifyCertificate(Buffer.from(JSON.stringify(data)))).toMatchObject({
      ok: false,
      problem: { kind: 'altered' },
    });
  });

  it('does not hold with a word of its pages’ data changed: the PDF bears their hash', async () => {
    const text = pdf.toString('latin1').replaceAll('503d0cd7f17f', '503d0cd7f170');
    expect(await verifyCertificate(Buffer.from(text, 'latin1'))).toMatchObject({ ok: false });
  });
});

function firstBacklash(data: Json): Json {
  const entry = (data['notebook'] as Json[]).find(
    (one) => ((one['deed'] as Json)['result'] as Json | undefined)?.['kind'] === 'backlash',
  );
  return ((entry ?? {})['deed'] as Json)['result'] as Json;
}

describe.each([
  ['2', 'b76e8f3d318d7ba996e0da5cccb3ead5f1deb735ec5f75ef7b4073ff71a6fe7f', 'd54d 0cf2 2b43 b201 b4ee 9bc3 2af3 7e8d'],
  ['3', '3cb85190d4a252ca2d8a261203e456b3639fc8cf628b12bc0344f85ce5e5829e', 'c213 a58e d390 2418 c456 d721 357c 1a61'],
  ['4', 'd2f8ab5beadac9ad6d112f2018a0f6dd98e22f46df3db4b7ddcf328038a29e32', 'd76c 5cc2 ec4a 00ff 8726 54e3 4353 9aa5'],
  ['5', '04b75f9c682d8b47fb9c3bcd0bf6e98d25b938b56be5b24b24fb587d0688ec17', '1226 5e6f cf32 ebee 1cb9 3195 8039 abd3'],
])('the certificate of edition %s', (edition, sha256, fingerprint) => {
  const pdf = golden(`edition-${edition}.pdf`);

  it('verifies for ever: signed, with its readings, whatever this program would say or measure otherwise', async () => {
    const verified = await verifyCertificate(pdf);
    expect(verified).toMatchObject({
      ok: true,
      value: {
        holds: true,
        sha256,
        edition,
        complete: true,
        signedBy: { fingerprint, known: false },
      },
    });
    // A program that measures otherwise says so and by how much; it does not call the certificate altered.
    if (verified.ok && verified.value.recomputed !== true)
      expect(verified.value).toMatchObject({ recomputed: false, firstDifference: expect.any(String) });
  });

  it('does not hold with one byte of a page, of the data or of the readings changed', async () => {
    for (const at of [2000, Math.floor(pdf.length / 2), pdf.length - 2000]) {
      const copy = Buffer.from(pdf);
      copy[at] = (copy[at] ?? 0) ^ 1;
      expect((await verifyCertificate(copy)).ok, `byte ${at}`).toBe(false);
    }
  });
});
