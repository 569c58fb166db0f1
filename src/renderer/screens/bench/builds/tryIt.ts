import type { SimulatedAxle } from '../../../../shared/contract/bench.ts';
import { ask } from '../../../stores/ask.ts';
import { go } from '../../../stores/route.ts';
import { useSession, workAs } from '../../../stores/session.ts';

/** Nobody who only looks has to give a name first. */
const usualName = 'Technician A';

/** Puts the simulated axle on the stand, described and with its limits, and leads to the first readings. */
export async function tryIt({ makeUp, specSheet }: SimulatedAxle): Promise<void> {
  const known = useSession.getState().technician.trim();
  const by = known === '' ? usualName : known;
  const title = `Simulated axle, ${makeUp.pinionTeeth}/${makeUp.ringTeeth}`;
  const build = (await ask('builds.start', { title, technician: by }))?.id;
  if (build === undefined) return;
  workAs(by);
  for (const deed of [
    { kind: 'described', makeUp },
    { kind: 'limits-set', specSheet },
  ] as const)
    if ((await ask('builds.write', { build, by, deed })) === undefined) return;
  go({ at: 'assemble', build, phase: 'as-found' });
}

/** Opens the simulated bench that stands beside this one, with records of its own, in place of this page. */
export async function openSimulated(): Promise<void> {
  const opened = await ask('bench.simulate', {});
  if (opened !== undefined) window.location.assign(opened.link);
}
