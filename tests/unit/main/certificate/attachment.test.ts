import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readAttachments } from '../../../../src/main/certificate/attachment.ts';

/** A PDF as ours is built, whose files are as many times the same packed megabyte. */
function pdfWith(times: number): Buffer {
  const packed = deflateSync(Buffer.alloc(1024 * 1024));
  const bodies = [
    `<< /AF [${'4 0 R '.repeat(times).trim()}] /Metadata 3 0 R >>`,
    '<< /Keywords 6 0 R >>',
    `<< /Length 120 >>\nstream\n${'<pdf:Keywords>sha256:' + 'a'.repeat(64) + '<xmp:CreatorTool>x<'}`,
    '<< /UF (certificate.json) /EF << /F 5 0 R >> >>',
    `<< /Filter /FlateDecode /Length ${packed.length} >>\nstream\n${packed.toString('latin1')}`,
    `(sha256:${'a'.repeat(64)})`,
  ];
  let text = '%PDF-1.7\n';
  const places = bodies.map((body, n) => {
    const place = text.length;
    text += `${n + 1} 0 obj\n${body}\nendobj\n`;
    return `${String(place).padStart(10, '0')} 00000 n \n`;
  });
  const table = `xref\n0 ${bodies.length + 1}\n0000000000 65535 f \n${places.join('')}trailer\n<< /Root 1 0 R /Info 2 0 R >>\n`;
  return Buffer.from(`${text}${table}startxref\n${text.length}\n%%EOF`, 'latin1');
}

describe('files in a PDF that unpack to very much', () => {
  it('are unpacked up to a bound, over all of them, and then refused', () => {
    expect(readAttachments(pdfWith(3), 4e6)).toMatchObject({
      ok: true,
      value: { printed: ['a'.repeat(64), 'a'.repeat(64)] },
    });
    expect(readAttachments(pdfWith(1), 1e6)).toMatchObject({ ok: false, problem: { kind: 'unreadable' } });
    expect(readAttachments(pdfWith(50), 20e6)).toMatchObject({ ok: false, problem: { kind: 'unreadable' } });
  });
});
