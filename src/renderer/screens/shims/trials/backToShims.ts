import type { Assembly, Build } from '../../../../shared/job/records/build.ts';
import { useNotebook, writeDeed } from '../../../stores/notebook.ts';
import { go } from '../../../stores/route.ts';
import { usualAssembly } from '../../job/assemble/usual.ts';

/**
 * Opens the next trial with the shims of an earlier one laid out, as they were measured then. They are measured anew
 * when they go in: nothing is recorded that nobody has measured.
 */
export async function backToShimsOf(build: Build, earlier: Assembly): Promise<void> {
  const { bearings, seal, sleeve } = earlier;
  const assembly = { ...usualAssembly('trial', build.makeUp), bearings, seal, sleeve };
  if (!(await writeDeed({ kind: 'assembled', assembly }))) return;
  const opened = useNotebook.getState().build?.assemblies.at(-1);
  if (opened !== undefined)
    go({ at: 'check', build: build.id, assembly: opened.id, check: 'shims', shimsOf: earlier.id });
}
