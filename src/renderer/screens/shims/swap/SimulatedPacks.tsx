import type { Swap } from '../../../../shared/job/records/build.ts';
import type { How } from '../../../../shared/job/records/measurement.ts';
import { HandButton } from '../../../parts/HandButton.tsx';
import { writeDeed } from '../../../stores/notebook.ts';

const byMicrometer: How = { kind: 'typed', tool: 'Micrometer 0–25 mm', resolution: { value: 0.01, unit: 'mm' } };

/** On the simulated bench only: the packs that the card asks for, stacked, and measured to the hundredth. */
export function SimulatedPacks({ swap }: { readonly swap: Swap }) {
  if (swap.lines.length === 0) return undefined;
  const packs = swap.lines.map(({ place, wanted_mm }) => {
    const pack = { value: Math.round(wanted_mm * 100) / 100, unit: 'mm' };
    return { place, each: [pack], pack };
  });
  return <HandButton move={() => writeDeed({ kind: 'packs-measured', swap: swap.id, how: byMicrometer, packs })} />;
}
