import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok, type Result } from '../../shared/basics/result.ts';
import { readNotebook } from '../../shared/job/records/build.ts';
import type { Notebook } from '../../shared/job/records/notebook.ts';
import type { CertificateLook } from '../../shared/presentation/certificate/page.ts';
import { signPdf } from '../certificate/filing.ts';
import { contentHash } from '../certificate/hash.ts';
import { fileNameOf } from '../exports/fileName.ts';
import { photoFiles } from '../exports/photoFiles.ts';
import type { ExportedFile } from '../exports/source.ts';
import type { SettingStore } from '../store/settings.ts';
import { drawnNow } from './drawing.ts';
import { readBundle } from '../exports/bundle.ts';
import { exportFiles } from '../exports/exportFiles.ts';
import { takeIn } from '../exports/takeIn.ts';
import type { CertifyingDesk } from './certificateAnswers.ts';
import { readBuild, tellChanged } from './writing.ts';

interface ExportingDesk extends CertifyingDesk {
  readonly settings: SettingStore;
}

/** Builds that leave for other programs and benches, and builds that come from them. */
export function exportAnswers(desk: ExportingDesk): Pick<BenchAnswers, 'exports.make' | 'exports.take-in'> {
  const { database, identity } = desk;
  return {
    'exports.make': async ({ build, as, job, photos = false, everything = false, ...wanted }) => {
      const notebook = readBuild(desk, build);
      if (!notebook.ok) return notebook;
      const set = desk.settings.read();
      const page = wanted.page ?? set.page ?? 'a4';
      const look = { page, units: wanted.units ?? set.units ?? 'metric', everything };
      const source = { database, identity, notebook: notebook.value };
      const made =
        as === 'pdf'
          ? await certificateApart(desk, notebook.value, look, job)
          : ok(await exportFiles(source, as, look));
      if (!made.ok) return made;
      const beside = photos ? photoFiles(source, fileNameOf(titleOf(notebook.value))) : [];
      const files = [...made.value, ...beside];
      if (files.length === 0) return fail(nothingOfThat);
      return ok({ files: files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') })) });
    },
    'exports.take-in': async ({ base64 }) => {
      const bundle = readBundle(Buffer.from(base64, 'base64'));
      if (!bundle.ok) return bundle;
      const taken = takeIn(database, identity, bundle.value);
      if (!taken.ok) return taken;
      const notebook = readBuild(desk, taken.value.build);
      if (!notebook.ok) return notebook;
      tellChanged(desk, taken.value.build);
      return taken;
    },
  };
}

const titleOf = ({ id, entries }: Notebook): string => readNotebook(id, entries).title;

/** The certificate drawn in a thread of its own, so that it can be stopped and readings go on being journaled. */
async function certificateApart(
  desk: ExportingDesk,
  notebook: Notebook,
  look: CertificateLook,
  job: string | undefined,
): Promise<Result<readonly ExportedFile[]>> {
  const drawn = await desk.papers.run(job, (watching) => drawnNow(desk, notebook, { look, watching }));
  if (!drawn.ok) return drawn;
  const { issue, pdf } = drawn.value;
  const name = `${fileNameOf(titleOf(notebook))}-${contentHash(issue.data).slice(0, 8)}.pdf`;
  return ok([{ name, bytes: signPdf(Buffer.from(pdf), desk.identity) }]);
}

const nothingOfThat = {
  kind: 'nothing-measured',
  sentence: 'No measurement of this build rests on readings of a gauge.',
  remedy: 'Typed and seen measurements stand in its data and its tables.',
};
