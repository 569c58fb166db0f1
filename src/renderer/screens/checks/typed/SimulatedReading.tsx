import { type Assembly, type Build, packAt } from '../../../../shared/job/records/build.ts';
import { HandButton } from '../../../parts/HandButton.tsx';
import { ask } from '../../../stores/ask.ts';
import { sayKept } from '../../../stores/kept.ts';
import { writeDeed } from '../../../stores/notebook.ts';
import type { CheckProps } from '../check/checkProps.ts';
import { goOnAfter } from '../check/goOn.ts';
import { assembledAs } from '../check/SimulatedHand.tsx';

/** On the simulated bench only: reads off, or sees, what somebody at the stand would, and keeps it. */
export function SimulatedReading({ build, assembly, check }: CheckProps) {
  if (heard.has(check.method)) return undefined;
  const read = async (): Promise<void> => {
    const before = packsBefore(build, assembly);
    const asked = { on: assembledAs(assembly), check: check.id, ...(before === undefined ? {} : { before }) };
    const seen = (await ask('bench.read-off', asked))?.read;
    if (seen === undefined) return sayKept(nothingThere);
    const written = await writeDeed({ kind: 'measured', assembly: assembly.id, check: check.id, ...seen });
    if (written) goOnAfter(assembly.id, check.id);
  };
  return <HandButton move={read} />;
}

/** The simulated stand has gauges for these: its hand moves the gears, and no eye reads a dial beside them. */
const heard: ReadonlySet<CheckProps['check']['method']> = new Set(['backlash', 'runout', 'torque']);

const nothingThere = 'The simulated axle has nothing to be read here. Type what your tool says, or go on.';

/** The packs of the last trial before this assembly, once all of them are known. */
function packsBefore(build: Build, assembly: Assembly) {
  const earlier = build.assemblies.slice(
    0,
    build.assemblies.findIndex(({ id }) => id === assembly.id),
  );
  const packs = earlier.filter(({ phase }) => phase === 'trial').map((trial) => assembledAs(trial).packs_mm);
  return packAt(assembly, 'pinion-depth') === undefined ? packs.findLast((one) => one !== undefined) : undefined;
}
