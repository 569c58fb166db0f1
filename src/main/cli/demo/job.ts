import type { OpenedSimulation } from '../../hosts/simulatedBench.ts';
import type { BacklashBasis, TorqueBasis } from '../../../shared/basics/recorded.ts';
import type { CaptureSettings, MarkResult } from '../../../shared/job/records/measurement.ts';
import type { CheckId } from '../../../shared/job/records/checkIds.ts';
import { makeUp, specSheet } from '../../hosts/simulatedAxle.ts';
import * as scenario from '../../hosts/simulatedReadings.ts';
import type { Technician } from './technician.ts';

const stations = 4;
/** Thickness of the marking compound on the twin's teeth. */
const film_um = 10;

const basis: BacklashBasis = { direction: 'along-rotation', at: 'heel' };
const rocking: CaptureSettings = { kind: 'backlash', basis, stations, nextBy: 'itself' };
const turning: CaptureSettings = { kind: 'runout', mode: 'continuous' };

interface Gauges {
  readonly indicator: string;
  readonly torque: string;
}

interface Job {
  readonly technician: Technician;
  readonly gauges: Gauges;
  readonly simulation: OpenedSimulation;
}

type Shims = OpenedSimulation['axle']['firstTrial']['shims'];
const packsOf = ({ head_mm, ringSide_mm, otherSide_mm }: Shims) => ({
  pinionDepth: head_mm,
  ringSide: ringSide_mm,
  oppositeSide: otherSide_mm,
});

/**
 * The whole job on the demo axle: as found, as it comes apart, a first trial whose backlash is out, so that the ring gear is
 * moved before any paint, a second whose mark shows the depth fault, a third that is right, final.
 */
export async function doTheJob(job: Job): Promise<void> {
  const { technician } = job;
  await technician.write({ kind: 'described', makeUp });
  await technician.write({ kind: 'limits-set', specSheet });
  await technician.write({
    kind: 'noted',
    topic: 'complaint',
    text: 'Hums under pull; the customer asked for a new gear set.',
  });
  await asFound(job);
  await stripping(job);
  await firstTrial(job);
  await secondTrial(job);
  await thirdTrial(job);
  await final(job);
  await technician.write({ kind: 'noted', topic: 'oil', text: 'Filled to the plug; break-in sheet handed over.' });
}

async function asFound(job: Job): Promise<void> {
  const { technician } = job;
  const id = await technician.assemble({ phase: 'as-found', bearings: 'used', seal: 'in' }, true, undefined);
  await technician.type(
    id,
    'case-tight',
    scenario.confirmed(false, 'The case rocks a little in its bearings; the backlash found is not the gears’ own.'),
  );
  await backlash(job, id);
  await runout(job, id, 'ring-gear-runout');
  await torque(job, id, 'total-torque', { bearings: 'used', seal: 'in' });
  await mark(job, id, 'recorded');
}

async function stripping(job: Job): Promise<void> {
  const { technician, simulation } = job;
  const id = await technician.assemble({ phase: 'stripping', bearings: 'used', seal: 'in' }, true, undefined);
  await technician.type(
    id,
    'caps-marked',
    scenario.confirmed(true, 'Punched: one dot on the ring-gear side, two opposite.'),
  );
  await technician.type(id, 'shims', scenario.shimsMeasured(simulation.axle.asFound.shims));
  await torque(job, id, 'pinion-torque', { bearings: 'used', seal: 'in' });
}

async function firstTrial(job: Job): Promise<void> {
  const { technician, simulation } = job;
  const { shims } = simulation.axle.firstTrial;
  const id = await technician.assemble({ phase: 'trial', bearings: 'set-up', seal: 'out' }, false, packsOf(shims));
  await technician.type(id, 'set-numbers', scenario.setNumbers);
  await technician.type(id, 'shims', scenario.shimsMeasured(shims));
  await technician.type(id, 'cup-seat', scenario.cupSeat);
  await runout(job, id, 'flange-runout');
  await technician.type(id, 'ring-gear-seat', scenario.ringGearSeat);
  await technician.type(id, 'ring-bolt-torque', scenario.fastener(100));
  await runout(job, id, 'ring-gear-runout');
  await together(job, id);
}

/** The backlash lay below its window: the ring gear goes away by side shims alone, and the teeth are painted then. */
async function secondTrial(job: Job): Promise<void> {
  const id = await againWith(job, job.simulation.axle.secondTrial.shims);
  await mark(job, id, 'change');
}

async function thirdTrial(job: Job): Promise<void> {
  const id = await againWith(job, job.simulation.axle.thirdTrial.shims);
  await mark(job, id, 'accepted');
}

/** A further trial with other shims: what another shim cannot change carries over. */
async function againWith(job: Job, shims: Shims): Promise<string> {
  const { technician } = job;
  const id = await technician.assemble({ phase: 'trial', bearings: 'set-up', seal: 'out' }, false, packsOf(shims));
  await technician.type(id, 'shims', scenario.shimsMeasured(shims));
  await technician.type(id, 'cup-seat', scenario.cupSeat);
  await together(job, id);
  return id;
}

/** What every trial asks for once pinion and case are in. */
async function together(job: Job, id: string): Promise<void> {
  await torque(job, id, 'pinion-torque', { bearings: 'set-up', seal: 'out' });
  await job.technician.type(id, 'cap-torque', scenario.fastener(80));
  await job.technician.type(id, 'case-end-play', scenario.endPlay(job.simulation.assembled().endPlay_mm));
  await backlash(job, id);
}

async function final(job: Job): Promise<void> {
  const { technician, simulation } = job;
  const { shims } = simulation.axle.final;
  const before = simulation.axle.thirdTrial.shims;
  const id = await technician.assemble({ phase: 'final', bearings: 'new', seal: 'in' }, true, packsOf(shims));
  await technician.type(id, 'shims', scenario.shimsMeasured(shims));
  await technician.type(id, 'sleeve-new', scenario.confirmed(true));
  await torque(job, id, 'pinion-torque', { bearings: 'new', seal: 'in' });
  const added = shims.ringSide_mm + shims.otherSide_mm - before.ringSide_mm - before.otherSide_mm;
  await technician.type(id, 'case-preload', scenario.preloadShims(added));
  await technician.type(id, 'cap-torque', scenario.fastener(80));
  await backlash(job, id);
  await torque(job, id, 'total-torque', { bearings: 'new', seal: 'in' });
  await technician.type(id, 'nut-locked', scenario.confirmed(true, 'New locking nut.'));
  await technician.type(id, 'bolts-locked', scenario.confirmed(true, 'Thread locker, ten bolts counted.'));
  await mark(job, id, 'accepted');
  await technician.type(id, 'oil', scenario.confirmed(true, 'Hypoid gear oil to the plug, 1.6 l.'));
}

const backlash = ({ technician, gauges }: Job, id: string): Promise<void> =>
  technician.measure(id, 'backlash', {
    gauge: gauges.indicator,
    settings: rocking,
    action: { do: 'rock', stations },
  });

const runout = ({ technician, gauges }: Job, id: string, check: 'ring-gear-runout' | 'flange-runout'): Promise<void> =>
  technician.measure(id, check, {
    gauge: gauges.indicator,
    settings: turning,
    action: { do: 'turn-ring', surface: check === 'flange-runout' ? 'flange' : 'ring-gear' },
  });

function torque(
  { technician, gauges }: Job,
  id: string,
  check: CheckId,
  state: Pick<TorqueBasis, 'bearings' | 'seal'>,
): Promise<void> {
  return technician.measure(id, check, {
    gauge: gauges.torque,
    settings: { kind: 'torque', basis: { basis: 'running', ...state } },
    action: { do: 'turn-pinion', what: check === 'total-torque' ? 'total' : 'pinion' },
  });
}

/** The compound shows what the twin's gears press out of it; the technician draws both flanks and decides. */
async function mark({ technician, simulation }: Job, id: string, judgement: MarkResult['judgement']): Promise<void> {
  const { convex, concave } = simulation.assembled().paint(film_um);
  const [drive, coast] = makeUp.driveFlank === 'convex' ? [convex, concave] : [concave, convex];
  const result: MarkResult = { kind: 'mark', drive, coast, judgement, compound: 'yellow marking compound, thin' };
  await technician.type(id, 'mark', { how: { kind: 'seen' }, result });
}
