import type { BenchService } from '../../src/shared/contract/contract.ts';
import { type Build, readNotebook } from '../../src/shared/job/records/build.ts';
import { valueOf } from './bench/open.ts';

/** A build as its notebook on the bench says it is now. */
export async function theBuild(service: BenchService, id: string): Promise<Build> {
  const notebook = valueOf(await service.answers['builds.read']({ build: id }));
  return readNotebook(notebook.id, notebook.entries);
}
