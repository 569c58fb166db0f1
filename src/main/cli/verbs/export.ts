import { join, resolve } from 'node:path';
import { certificateContent } from '../../../shared/presentation/certificate/content.ts';
import { entriesCertified } from '../../../shared/job/certifying/certificateData.ts';
import { issueOf } from '../../certificate/issue.ts';
import { readIdentity } from '../../store/identity.ts';
import { fail, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import { exportForms } from '../../../shared/contract/exports.ts';
import { type ExportForm, exportFiles } from '../../exports/exportFiles.ts';
import type { ExportedFile } from '../../exports/source.ts';
import { fileNameOf } from '../../exports/fileName.ts';
import { photoFiles } from '../../exports/photoFiles.ts';
import { noBuild } from '../../bench/writing.ts';
import { contentHash } from '../../certificate/hash.ts';
import { endBetweenSteps } from '../../interruption.ts';
import { makeFolder, writeWhole } from '../../writeWhole.ts';
import { databaseProblem } from '../../store/databaseProblem.ts';
import { choice, ofOption } from '../options.ts';
import { folderOf, openRecords, type Records } from '../records.ts';
import { told } from '../told.ts';
import { type ExitCode, type Given, needed, noAnswer, type Output, type Verb, wrongUse } from '../verb.ts';

/** A build as files for other programs and people. */
export const exportBuild: Verb = {
  name: 'export',
  ...told.export,
  options: {
    build: { type: 'string' },
    as: { type: 'string' },
    out: { type: 'string' },
    photos: { type: 'boolean' },
    everything: { type: 'boolean' },
    page: { type: 'string' },
    units: { type: 'string' },
  },
  async run(given, output) {
    const asked = askedOf(given);
    if (!asked.ok) return wrongUse(output, asked.problem);
    const records = openRecords(folderOf(given));
    if (!records.ok) return noAnswer(output, records.problem);
    try {
      return await exported(asked.value, records.value, output);
    } finally {
      records.value.close();
    }
  },
};

interface Asked {
  readonly build: string;
  readonly as: ExportForm;
  readonly out: string;
  readonly photos: boolean;
  readonly everything: boolean;
  readonly page: 'a4' | 'letter';
  readonly units: 'metric' | 'inch';
}

function askedOf(given: Given): Result<Asked> {
  const build = needed(given, 'build');
  if (!build.ok) return build;
  const as = needed(given, 'as');
  if (!as.ok) return as;
  const form = exportForms.find((one) => one === as.value);
  if (form === undefined) return fail(noSuchForm(as.value));
  const out = needed(given, 'out');
  if (!out.ok) return out;
  const page = choice(given, 'page', ['a4', 'letter'], 'a4');
  if (!page.ok) return page;
  const units = choice(given, 'units', ['metric', 'inch'], 'metric');
  if (!units.ok) return units;
  const where = { build: build.value, as: form, out: resolve(out.value), photos: given.flag('photos') };
  const look = { page: page.value, units: units.value, everything: given.flag('everything') };
  return ok({ ...where, ...look });
}

async function exported(asked: Asked, records: Records, output: Output): Promise<ExitCode> {
  const read = records.notebooks.read(asked.build);
  if (read === undefined) return wrongUse(output, ofOption('build', noBuild(asked.build)));
  if (!read.ok) return noAnswer(output, read.problem);
  const notebook = read.value;
  const identity = readIdentity(records.database);
  if (!identity.ok) return noAnswer(output, identity.problem);
  const source = { database: records.database, identity: identity.value, notebook };
  const { data } = issueOf(records.database, notebook, identity.value);
  const told = certificateContent({ id: notebook.id, entries: [...entriesCertified(notebook)] });
  const photos = asked.photos ? photoFiles(source, fileNameOf(told.build.title)) : [];
  const files = [...(await exportFiles(source, asked.as, asked)), ...photos];
  const written = writeAll(asked.out, files);
  if (!written.ok) return noAnswer(output, written.problem);
  const { complete } = data.judged;
  output.answer({ files: written.value, sha256: contentHash(data), complete, missing: told.missing });
  return files.length > 0 ? 0 : noAnswer(output, noReadings);
}

function writeAll(folder: string, files: readonly ExportedFile[]): Result<readonly string[]> {
  endBetweenSteps();
  try {
    makeFolder(folder);
    for (const { name, bytes } of files) writeWhole(join(folder, name), bytes);
    return ok(files.map(({ name }) => join(folder, name)));
  } catch (error) {
    return fail(databaseProblem(error, folder));
  }
}

const noSuchForm = (word: string): Problem => ({
  kind: 'wrong-option',
  field: '--as',
  sentence: `--as is "${word}".`,
  remedy: `Use ${exportForms.join(', ')}.`,
});

const noReadings: Problem = {
  kind: 'nothing-measured',
  sentence: 'No measurement of this build rests on readings of a gauge.',
  remedy: 'Typed and seen measurements stand in its data: --as json.',
};
