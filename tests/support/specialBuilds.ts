import type { BenchService } from '../../src/shared/contract/contract.ts';
import { checkIds } from '../../src/shared/job/records/checkIds.ts';
import type { How } from '../../src/shared/job/records/measurement.ts';
import type { Deed } from '../../src/shared/job/records/notebook.ts';
import { valueOf } from './bench/open.ts';
import { backlashRound, cosine, runoutOf, streamed } from './records/gearStand.ts';
import { asFound, final, limitsSet, measured, stripping, trial } from './records/scenario.ts';
import { withMakeUp } from './records/trials.ts';

/** Builds that stand where the usual one never does, written straight into the bench. Invented, every figure. */
const by = 'R. Lindqvist';

export interface Standing {
  readonly build: string;
  readonly assembly: string;
}

/** A build with this phase assembled, and what else was done in it. */
async function standing(
  service: BenchService,
  title: string,
  before: readonly Deed[],
  assembled: Deed,
  after: (assembly: string) => readonly Deed[] = () => [],
): Promise<Standing> {
  const { id: build } = valueOf(await service.answers['builds.start']({ title, technician: by }));
  const write = async (deed: Deed): Promise<string> =>
    valueOf(await service.answers['builds.write']({ build, by, deed })).entries.at(-1)?.id ?? '';
  for (const deed of before) await write(deed);
  const assembly = await write(assembled);
  for (const deed of after(assembly)) await write(deed);
  return { build, assembly };
}

/** Ring gear, flange and backlash read with their places: whether they fit, and where the gear would run truer. */
export const readWithPlaces = (service: BenchService): Promise<Standing> =>
  standing(service, 'Rear axle 1311, runs out', [withMakeUp({ ringBolts: 10 }), limitsSet], trial, (assembly) => {
    const place = streamed({ fromMesh_deg: 90, radius_mm: 100 });
    const once = (amplitude_mm: number, highSpot_deg: number) => runoutOf([{ order: 1, amplitude_mm, highSpot_deg }]);
    return [
      measured(assembly, 'flange-runout', once(0.02, 0), place),
      measured(assembly, 'ring-gear-runout', once(0.03, 40), place),
      measured(
        assembly,
        'backlash',
        backlashRound(8, (at) => 0.2 + 0.02 * cosine(at - 130)),
      ),
    ];
  });

/** An axle as found, nothing read yet: play and end play are felt while it is still together. */
export const stillTogether = (service: BenchService): Promise<Standing> =>
  standing(service, 'Front axle 1313, as found', [withMakeUp({}), limitsSet], asFound);

/** All of it answered as found: what comes next is to strip it. */
export const readyToStrip = (service: BenchService): Promise<Standing> =>
  standing(service, 'Front axle 1314, about to be stripped', [withMakeUp({}), limitsSet], asFound, (assembly) =>
    checkIds.map((check) => ({ kind: 'overridden', assembly, check, reason: 'On the shop’s paper sheet' }) as const),
  );

/** Coming apart, the caps marked next. */
export const comingApart = (service: BenchService): Promise<Standing> =>
  standing(service, 'Front axle 1315, coming apart', [withMakeUp({}), limitsSet], stripping);

const byPlay: How = {
  kind: 'streamed',
  gauge: { id: 'g', label: 'Indicator', kind: 'indicator', resolution: { value: 0.001, unit: 'mm' } },
  stretch: { gauge: 'g', from: 0, to: 9 },
  settings: { kind: 'play' },
};

/** Case end play read by the indicator, to be shown as it is recorded. */
export const endPlayRead = (service: BenchService): Promise<Standing> =>
  standing(service, 'Front axle 1316, end play', [withMakeUp({}), limitsSet], asFound, (assembly) => [
    measured(
      assembly,
      'case-end-play',
      {
        kind: 'play',
        value_mm: 0.041,
        strokes: 3,
        sd_mm: 0.001,
        u_mm: 0.002,
        U95_mm: 0.004,
        flags: [],
        parts: [{ name: 'resolution', u: 0.002 }],
      },
      byPlay,
    ),
  ]);

/** A new axle, described and without limits, where the shop has spec sheets of others. */
export async function withoutLimits(service: BenchService): Promise<{ readonly build: string }> {
  const { id: build } = valueOf(
    await service.answers['builds.start']({ title: 'Rear axle 1317, to have limits', technician: by }),
  );
  valueOf(await service.answers['builds.write']({ build, by, deed: withMakeUp({}) }));
  return { build };
}

const source = 'Maker’s manual, table 9';
const Nm = (value: number) => ({ value, unit: 'N.m' });

/** The pinion of a final assembly, about to be tightened on its new crush sleeve. */
export const onSleeve = (service: BenchService): Promise<Standing> =>
  standing(service, 'Rear axle 1312, new sleeve', [withMakeUp({ pinionPreload: 'crush-sleeve' }), sleeveLimits], final);

const sleeveLimits: Deed = {
  kind: 'limits-set',
  specSheet: {
    name: 'Rear axle, crush sleeve',
    rule: 'simple',
    limits: [
      {
        quantity: 'pinion-torque',
        basis: { basis: 'running', seal: 'in', bearings: 'new' },
        min: Nm(1.7),
        max: Nm(2.6),
        source,
      },
      { quantity: 'pinion-nut-torque', max: Nm(400), source },
    ],
  },
};
