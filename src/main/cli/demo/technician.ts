import type { HandAction, SimulatedAssembly } from '../../../shared/contract/bench.ts';
import type { Notebook } from '../../../shared/job/records/notebook.ts';
import type { Answer, Ask, BenchService, QuestionName } from '../../../shared/contract/contract.ts';
import type { CaptureSettings } from '../../../shared/job/records/measurement.ts';
import type { Deed } from '../../../shared/job/records/notebook.ts';
import { fail, isNone, ok, type Problem, type Result } from '../../../shared/basics/result.ts';
import type { CheckId } from '../../../shared/job/records/checkIds.ts';
import { fewestStations } from '../../../shared/job/checks/checks.ts';
import type { TypedReading } from '../../hosts/simulatedReadings.ts';

/** A problem on the way through the demo; it ends the demo with the problem's own sentence. */
export class DemoStopped extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.sentence);
    this.problem = problem;
  }
}

/** With which gauge, how, and by what motion of the hand a measurement is taken. */
interface Taking {
  readonly gauge: string;
  readonly settings: CaptureSettings;
  readonly action: HandAction;
}

/** The demo's technician: does with the bench what a person does, by the same questions the screens ask. */
export interface Technician {
  ask<Name extends QuestionName>(name: Name, ask: Ask<Name>): Promise<Answer<Name>>;
  write(deed: Deed): Promise<Notebook>;
  /** Puts the axle together and opens the assembly in the notebook; gives its id. */
  assemble(
    assembly: Omit<SimulatedAssembly, 'number'>,
    sleeve: boolean,
    packs: SimulatedAssembly['packs_mm'],
  ): Promise<string>;
  type(assembly: string, check: CheckId, reading: TypedReading): Promise<void>;
  /** Lets the hand move while the gauge streams, then has the bench record from the journal. */
  measure(assembly: string, check: CheckId, taken: Taking): Promise<void>;
}

export async function createTechnician(
  service: BenchService,
  title: string,
  by: string,
  wrote: (notebook: Notebook) => void,
): Promise<Technician> {
  const asking = async <Name extends QuestionName>(name: Name, ask: Ask<Name>): Promise<Answer<Name>> => {
    const result = (await service.answers[name](ask)) as Result<Answer<Name>>;
    if (!result.ok) throw new DemoStopped(result.problem);
    return result.value;
  };
  const { id: build } = await asking('builds.start', { title, technician: by });
  const heard = lastHeard(service);
  let on: SimulatedAssembly | undefined;
  let trials = 0;

  const written = (notebook: Notebook): Notebook => {
    wrote(notebook);
    return notebook;
  };
  const write = async (deed: Deed): Promise<Notebook> => written(await asking('builds.write', { build, by, deed }));
  return {
    ask: asking,
    write,
    async assemble(assembly, sleeve, packs_mm) {
      if (assembly.phase === 'trial') trials += 1;
      on = {
        ...assembly,
        number: assembly.phase === 'trial' ? trials : 1,
        ...(packs_mm === undefined ? {} : { packs_mm }),
      };
      const { phase, bearings, seal } = assembly;
      const notebook = await write({ kind: 'assembled', assembly: { phase, bearings, seal, sleeve } });
      return notebook.entries.at(-1)?.id ?? '';
    },
    type: async (assembly, check, { how, result }) =>
      void (await write({ kind: 'measured', assembly, check, how, result })),
    async measure(assembly, check, { gauge, settings, action }) {
      for (let attempt = 1; ; attempt += 1) {
        const from = heard.last() + 1;
        await asking('bench.hand', { action: { ...action, ...(on === undefined ? {} : { on }) } });
        // The hand ends with its last reading; the line needs a moment to bring it here.
        await heard.after(gauge, from, 0.1);
        const stretch = { gauge, from, to: heard.last() };
        const notebook = written(
          await asking('measurements.record', { build, by, assembly, check, stretch, settings }),
        );
        // A refused measurement is taken again, as at the stand; both stay in the notebook.
        if (attempt === mostAttempts || !refused(notebook)) return;
      }
    },
  };
}

const mostAttempts = 3;

/** Whether the measurement written last has no number, or a station without one. */
function refused(notebook: Notebook): boolean {
  const deed = notebook.entries.at(-1)?.deed;
  if (deed?.kind !== 'measured') return false;
  const { result } = deed;
  if (result.kind === 'backlash')
    return result.stations.length < fewestStations || result.stations.some((station) => isNone(station.value_mm));
  if (result.kind === 'runout') return isNone(result.tir_mm);
  return result.kind === 'torque' && isNone(result.running_Nm);
}

/** The newest journal row heard, and a wait until a gauge has sent for a little longer. */
function lastHeard(service: BenchService) {
  let last = 0;
  const newest = new Map<string, { readonly seq: number; readonly t: number }>();
  service.hear('heard', (news) => {
    for (const one of news) {
      last = Math.max(last, one.seq);
      if ('gauge' in one) newest.set(one.gauge, one);
    }
  });
  return {
    last: () => last,
    async after(gauge: string, from: number, more_s: number): Promise<void> {
      const since = newest.get(gauge)?.t ?? 0;
      const deadline = Date.now() + 2000;
      const there = (): boolean => (newest.get(gauge)?.t ?? 0) >= since + more_s && last >= from;
      while (!there()) {
        if (Date.now() > deadline) throw new DemoStopped(silent(gauge));
        await new Promise((resolve) => setTimeout(resolve, 10));
      }
    },
  };
}

const silent = (gauge: string): Problem => ({
  kind: 'gauge-silent',
  sentence: `The simulated gauge ${gauge} has stopped sending.`,
  remedy: 'Run the demo again; if it happens twice, the line between gauge and bench is broken.',
});

/** Waits until a gauge is live. */
export async function untilLive(service: BenchService, gauge: string): Promise<Result<void>> {
  const deadline = Date.now() + 5000;
  while (Date.now() < deadline) {
    const states = await service.answers['gauges.states']({});
    if (states.ok && states.value.some((one) => one.gauge === gauge && one.state === 'live' && one.readings > 0))
      return ok(undefined);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  return fail(silent(gauge));
}
