import { assemblyName, readNotebook } from '../../shared/job/records/build.ts';
import { openPhotos } from '../store/photos.ts';
import type { ExportedFile, Source } from './source.ts';

/** The photos of a build, as they are stored: shrunk, and without what the camera wrote about place and time. */
export function photoFiles({ database, notebook }: Source, title: string): readonly ExportedFile[] {
  const store = openPhotos(database);
  return readNotebook(notebook.id, notebook.entries).assemblies.flatMap((assembly) =>
    assembly.photos.flatMap(({ sha256 }) => {
      const bytes = store.read(sha256);
      const place = assemblyName(assembly)
        .toLowerCase()
        .replaceAll(/[^a-z0-9]+/gu, '-');
      // Named by its hash, as the build's data names it.
      return bytes === undefined ? [] : [{ name: `${title}-${place}-${sha256.slice(0, 12)}.jpg`, bytes }];
    }),
  );
}
