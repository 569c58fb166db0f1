import { noCase } from '../../../shared/basics/noCase.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { entriesCertified } from '../../../shared/job/certifying/certificateData.ts';
import { readNotebook } from '../../../shared/job/records/build.ts';
import { certificateContent } from '../../../shared/presentation/certificate/content.ts';
import { type SlipWanted, swapCardBlocks, tagBlocks } from '../../../shared/presentation/certificate/slips.ts';
import type { CertificateLook } from '../../../shared/presentation/certificate/page.ts';
import { canonicalJson, contentHash } from '../../certificate/hash.ts';
import { issueOf } from '../../certificate/issue.ts';
import { certificatePdf, drawnPdf } from '../../certificate/pdf.ts';
import { pageCountOf, pagePictures } from '../../certificate/picture.ts';
import { slipPdf } from '../../certificate/slip.ts';
import { dataSignature } from '../../certificate/signature.ts';
import { systemClock } from '../../clock.ts';
import { openDatabase } from '../../store/database.ts';
import { readIdentity } from '../../store/identity.ts';
import { certificateName, exportFiles } from '../exportFiles.ts';
import { fileNameOf } from '../fileName.ts';
import { photoFiles } from '../photoFiles.ts';
import type { Source } from '../source.ts';
import type { CertificateTold, MadeOf, Making, PaperAsked } from './words.ts';

type OnShare = (share: number) => void;

/** Makes what is wanted of a build, from a data folder that a bench may be at work in. */
export async function makePaper(
  { folder, notebook, look, wanted }: PaperAsked,
  onShare: OnShare,
): Promise<Result<MadeOf[Making]>> {
  const database = openDatabase(folder, systemClock, { as: 'reader' });
  if (!database.ok) return database;
  try {
    const identity = readIdentity(database.value);
    if (!identity.ok) return identity;
    const source = { database: database.value, identity: identity.value, notebook };
    switch (wanted.make) {
      case 'certificate':
        return ok(await certificate(source, look, onShare));
      case 'pictures':
        return await pictures(source, look, { ...wanted, onShare });
      case 'files': {
        const files = await exportFiles(source, wanted.form, look, onShare);
        return ok([...files, ...(wanted.photos ? photoFiles(source, fileNameOf(titleOf(source))) : [])]);
      }
      default:
        throw noCase(wanted);
    }
  } finally {
    database.value.close();
  }
}

const titleOf = ({ notebook: { id, entries } }: Source): string => readNotebook(id, entries).title;

async function certificate(source: Source, look: CertificateLook, onShare: OnShare): Promise<MadeOf['certificate']> {
  const { database, notebook, identity } = source;
  const issue = issueOf(database, notebook, identity);
  const bytes = await certificatePdf(issue, look, identity, onShare);
  const sha256 = contentHash(issue.data);
  const content = certificateContent({ id: notebook.id, entries: [...entriesCertified(notebook)] });
  const told: CertificateTold = { sha256, complete: issue.data.judged.complete, missing: content.missing };
  return { file: { name: certificateName(content.build.title, sha256, 'pdf'), bytes }, told };
}

interface Shown {
  readonly pixelsWide: number;
  readonly most: number;
  readonly slip?: SlipWanted | undefined;
  readonly onShare: OnShare;
}

/** Drawing the pages takes about so much of the time, and making pictures of them the rest. */
const drawingTakes = 0.6;

async function pictures(
  source: Source,
  look: CertificateLook,
  { pixelsWide, most, slip, onShare }: Shown,
): Promise<Result<MadeOf['pictures']>> {
  const share = (drawn: number): void => onShare(drawn * drawingTakes);
  const made =
    slip === undefined ? ok(await certificatePages(source, look, share)) : await slipPages(source, look, slip);
  if (!made.ok) return made;
  const pdf = made.value;
  const drawn = await pagePictures(pdf, pixelsWide, most, (share) =>
    onShare(drawingTakes + share * (1 - drawingTakes)),
  );
  return ok({ pages: await pageCountOf(pdf), pictures: drawn });
}

function certificatePages(
  { database, notebook, identity }: Source,
  look: CertificateLook,
  onShare: OnShare,
): Promise<Buffer> {
  const issue = issueOf(database, notebook, identity);
  return drawnPdf(issue, look, dataSignature(issue.data.bench.key, canonicalJson(issue.data), identity), onShare);
}

async function slipPages(
  { database, notebook, identity }: Source,
  look: CertificateLook,
  slip: SlipWanted,
): Promise<Result<Buffer>> {
  const build = readNotebook(notebook.id, notebook.entries);
  if (slip.kind === 'tag') {
    const { shop } = issueOf(database, notebook, identity).data;
    const content = certificateContent({ id: notebook.id, entries: [...entriesCertified(notebook)] });
    return ok(await slipPdf(tagBlocks(content, build, { system: look.units, shop }), look, build.title));
  }
  const swap = build.swaps.find(({ id }) => id === slip.swap);
  if (swap === undefined) return fail(noSuchCard);
  return ok(await slipPdf(swapCardBlocks(build, swap, look.units), look, build.title));
}

const noSuchCard: Problem = {
  kind: 'no-swap-card',
  sentence: 'There is no such swap card in this build.',
  remedy: 'Open the build again; it may have been undone.',
};
