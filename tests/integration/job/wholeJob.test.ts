import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { demoAxle } from '../../../hardware-sim/axle/demo.ts';
import { verifyCertificate } from '../../../src/main/certificate/verify.ts';
import { demo } from '../../../src/main/cli/verbs/demo.ts';
import { runCommandLine } from '../../../src/main/cli/run.ts';
import { scenarioSeed } from '../../../src/main/hosts/simulatedBench.ts';
import type { CertificateData } from '../../../src/shared/job/certifying/certificateData.ts';
import { type CertificateContent, certificateContent } from '../../../src/shared/presentation/certificate/content.ts';
import type { MeasuredResult } from '../../../src/shared/job/records/measurement.ts';

/**
 * The whole job, as `npm run demo` does it: simulated gauges on real serial lines, real clock, real database.
 * What the bench says is held against what the twin knows.
 */
describe('the whole job on the axle twin', () => {
  const out = mkdtempSync(join(tmpdir(), 'axlewright-job-'));
  const said: string[] = [];
  let exit: number;
  let content: CertificateContent;
  const axle = demoAxle(scenarioSeed);

  beforeAll(async () => {
    exit = await runCommandLine([demo], ['demo', '--out', out], {
      answer: () => undefined,
      say: (sentence) => said.push(sentence),
    });
    const data = JSON.parse(readFileSync(join(out, 'certificate.json'), 'utf8')) as CertificateData;
    content = certificateContent({ id: data.build, entries: data.notebook });
  }, 240_000);

  const resultOf = (name: string, check: string): MeasuredResult => {
    const found = content.assemblies
      .find((one) => one.name === name)
      ?.checks.find((one) => one.check === check)?.measurement;
    if (found === undefined) throw new Error(`${name} has no ${check}`);
    return found.result;
  };

  it('ends with a complete certificate', () => {
    expect(exit).toBe(0);
    expect(content.missing).toEqual([]);
    expect(content.assemblies.map(({ name }) => name)).toEqual([
      'As found',
      'As it comes apart',
      'Trial 1',
      'Trial 2',
      'Trial 3',
      'Final',
    ]);
    for (const file of ['certificate.pdf', 'certificate.json', 'certificate-page-1.png'])
      expect(existsSync(join(out, file)), file).toBe(true);
  });

  it('whose PDF anyone can verify, and whose figures come out of its own readings', async () => {
    const verified = await verifyCertificate(readFileSync(join(out, 'certificate.pdf')));
    expect(verified).toMatchObject({ ok: true, value: { complete: true, recomputed: true, sameWordsToday: true } });
    expect(said.join('\n')).toContain(verified.ok ? verified.value.sha256 : 'no hash');
  });

  it.each([
    ['As found', axle.asFound],
    ['Trial 1', axle.firstTrial],
    ['Trial 2', axle.secondTrial],
    ['Trial 3', axle.thirdTrial],
    ['Final', axle.final],
  ])('measures the backlash the twin has, %s', (name, assembly) => {
    const twin = axle.assemble(assembly);
    const result = resultOf(name, 'backlash');
    if (result.kind !== 'backlash') throw new Error('not a backlash');
    expect(result.stations).toHaveLength(4);
    for (const station of result.stations) {
      const truth = twin.backlashAt(((station.number - 1) * Math.PI) / 2);
      // The gauge's stated error (0.004), its hysteresis (0.002), the give under the hand (0.0015) and its scatter.
      expect(Math.abs(Number(station.value_mm) - truth), `station ${station.number}`).toBeLessThan(0.01);
      expect(station.rocks).toBeGreaterThanOrEqual(3);
    }
  });

  it('measures runout and torque the twin has', () => {
    const trial = axle.assemble(axle.firstTrial);
    const faces = Array.from({ length: 720 }, (_, step) => trial.backFaceAt((step * Math.PI) / 360));
    const runout = resultOf('Trial 1', 'ring-gear-runout');
    expect(
      runout.kind === 'runout' && Math.abs(Number(runout.tir_mm) - (Math.max(...faces) - Math.min(...faces))),
    ).toBeLessThan(0.01);
    const final = axle.assemble(axle.final);
    const drags = Array.from({ length: 360 }, (_, step) => final.pinionDragAt((step * Math.PI) / 180));
    const mean = drags.reduce((sum, drag) => sum + drag, 0) / drags.length;
    const torque = resultOf('Final', 'pinion-torque');
    expect(torque.kind === 'torque' && Math.abs(Number(torque.running_Nm) - mean) / mean).toBeLessThan(0.04);
  });

  it('paints no trial whose backlash is out, finds the depth fault in the second and none in the third', () => {
    const first = content.assemblies.find((one) => one.name === 'Trial 1');
    expect(first?.checks.find(({ check }) => check === 'backlash')?.standing).toBe('outside');
    expect(first?.checks.find(({ check }) => check === 'mark')?.measurement).toBeUndefined();
    const second = resultOf('Trial 2', 'mark');
    expect(second).toMatchObject({ judgement: 'change', drive: { edges: { root: 'hard' } } });
    expect(resultOf('Trial 3', 'mark')).toMatchObject({ judgement: 'accepted' });
  });

  it('keeps typed readings marked', () => {
    const trial = content.assemblies.find((one) => one.name === 'Trial 1');
    expect(trial?.checks.find(({ check }) => check === 'cap-torque')?.measurement?.how.kind).toBe('typed');
  });
});
