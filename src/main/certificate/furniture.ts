import type { CertificateContent } from '../../shared/presentation/certificate/content.ts';
import { colourOf, scale } from './letters.ts';
import type { Signed } from '../../shared/presentation/certificate/closing.ts';
import type { Paper } from './paper.ts';

/** What stands on every page: whose certificate it is, whether it is incomplete, its hash, the bench that signed it, and which page of how many. */
export function furnish(paper: Paper, { build, complete }: CertificateContent, signed: Signed): void {
  const { start, count } = paper.pdf.bufferedPageRange();
  for (let page = start; page < start + count; page += 1) {
    paper.pdf.switchToPage(page);
    const number = `Page ${page + 1} of ${count}`;
    const box = paper.hasBoxes ? '  ·  □ is a sign that cannot be set here; the attached data have it as typed' : '';
    const said = { title: `${build.title}${box}`, complete, signed, page: number };
    paper.artifact(() => footer(paper, said), 'Pagination');
  }
}

interface Footer {
  readonly title: string;
  readonly complete: boolean;
  readonly signed: Signed;
  readonly page: string;
}

function footer(paper: Paper, { title, complete, signed, page }: Footer): void {
  const y = paper.bottom + 17;
  const { pdf, left, right, width } = paper;
  pdf
    .save()
    .moveTo(left, y - 6)
    .lineTo(right, y - 6)
    .lineWidth(0.4)
    .stroke(colourOf('faint'))
    .restore();
  const [first = ''] = paper.wrap(title, scale.footer, width * 0.78);
  paper.line(first, left, y, scale.footer);
  paper.line(`SHA-256 ${signed.sha256}`, left, y + scale.footer.line, scale.footer);
  const key = `Key ${signed.fingerprint}`;
  paper.line(key, right - paper.measure(key, scale.footer), y + scale.footer.line, scale.footer);
  const said = complete ? page : `Incomplete · ${page}`;
  const letters = complete ? scale.footer : ({ ...scale.footer, weight: 600, ink: 'text' } as const);
  paper.line(said, right - paper.measure(said, letters), y, letters);
}
