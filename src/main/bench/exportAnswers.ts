import type { BenchAnswers } from '../../shared/contract/contract.ts';
import { fail, ok } from '../../shared/basics/result.ts';
import type { SettingStore } from '../store/settings.ts';
import { paperApart } from '../exports/apart/paperApart.ts';
import { readBundle } from '../exports/bundle.ts';
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
      const asked = {
        folder: database.folder,
        notebook: notebook.value,
        look,
        wanted: { make: 'files', form: as, photos },
      } as const;
      const made = await desk.papers.run(job, (watching) => paperApart(asked, watching));
      if (!made.ok) return made;
      const files = made.value;
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

const nothingOfThat = {
  kind: 'nothing-measured',
  sentence: 'No measurement of this build rests on readings of a gauge.',
  remedy: 'Typed and seen measurements stand in its data and its tables.',
};
