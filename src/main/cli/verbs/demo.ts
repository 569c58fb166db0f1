import { join, resolve } from 'node:path';
import type { BenchService } from '../../../shared/contract/contract.ts';
import type { Notebook } from '../../../shared/job/records/notebook.ts';
import { ok, type Result } from '../../../shared/basics/result.ts';
import { readAddress } from '../../archive/address.ts';
import type { Reach } from '../../archive/connect.ts';
import { passwordFor } from '../../archive/secret.ts';
import { openBench } from '../../bench/bench.ts';
import { jsonFromPdf } from '../../certificate/openFile.ts';
import { systemClock } from '../../clock.ts';
import { endBetweenSteps } from '../../interruption.ts';
import { writeWhole } from '../../writeWhole.ts';
import { type OpenedSimulation, openSimulation } from '../../hosts/simulatedBench.ts';
import { type PluggedIn, plugInSimulated } from '../../hosts/simulatedGaugeRecords.ts';
import { doTheJob } from '../demo/job.ts';
import { demoFiles, demoFolderName, freshDemoFolder } from '../demo/recordsFolder.ts';
import { technician as by, title } from '../demo/scenario.ts';
import { lastLine } from '../demo/table.ts';
import { createTechnician, DemoStopped, type Technician, untilLive } from '../demo/technician.ts';
import { told } from '../told.ts';
import { type ExitCode, needed, noAnswer, type Output, type Verb, wrongUse } from '../verb.ts';

/** The whole job on the axle twin, unattended, on readings that came through real lines. */
export const demo: Verb = {
  name: 'demo',
  ...told.demo,
  options: { out: { type: 'string' }, archive: { type: 'string' } },
  async run(given, output) {
    const out = needed(given, 'out');
    if (!out.ok) return wrongUse(output, out.problem);
    const to = given.text('archive');
    const reach = to === undefined ? undefined : reachOf(to);
    if (reach?.ok === false) return wrongUse(output, reach.problem);
    const made = await runDemo(resolve(out.value), output);
    return made === 0 && reach !== undefined ? sendDemo(resolve(out.value), reach.value, output) : made;
  },
};

function reachOf(text: string): Result<Reach> {
  const address = readAddress(text, '--archive');
  if (!address.ok) return address;
  const password = passwordFor(address.value);
  return password.ok ? ok({ address: address.value, password: password.value }) : password;
}

/** Sends what the demo made to an archive that was named for it. */
async function sendDemo(out: string, reach: Reach, output: Output): Promise<ExitCode> {
  const { sendRecords } = await import('../../archive/sendRecords.ts');
  const sent = await sendRecords(join(out, demoFolderName), reach);
  if (!sent.ok) return noAnswer(output, sent.problem);
  const { entries, readings, photos } = sent.value;
  output.say(`Sent to the archive: ${entries} entries, ${readings} readings, ${photos} photos.`);
  return 0;
}

async function runDemo(out: string, output: Output): Promise<ExitCode> {
  endBetweenSteps();
  const folder = freshDemoFolder(out);
  if (!folder.ok) return wrongUse(output, folder.problem);
  output.say('Putting the simulated axle on the stand …');
  const simulation = await openSimulation('hurried');
  const bench = openBench({ folder: folder.value, clock: systemClock, version: 'demo', simulation });
  if (!bench.ok) {
    await simulation.close();
    return noAnswer(output, bench.problem);
  }
  try {
    await job(bench.value, simulation, out, output);
    return 0;
  } catch (error) {
    if (error instanceof DemoStopped) return noAnswer(output, error.problem);
    throw error;
  } finally {
    await bench.value.close();
  }
}

async function job(service: BenchService, simulation: OpenedSimulation, out: string, output: Output): Promise<void> {
  let notebook: Notebook | undefined;
  const technician = await createTechnician(service, title, by, (written) => {
    notebook = written;
    const line = lastLine(written);
    if (line !== undefined) output.say(line);
  });
  const gauges = await plugIn(service, simulation);
  await doTheJob({ technician, gauges, simulation });
  if (notebook !== undefined) await certificate(technician, notebook, out, output);
}

async function plugIn(service: BenchService, simulation: OpenedSimulation): Promise<PluggedIn> {
  const plugged = await plugInSimulated(service, simulation);
  if (!plugged.ok) throw new DemoStopped(plugged.problem);
  for (const gauge of Object.values(plugged.value)) {
    const live = await untilLive(service, gauge);
    if (!live.ok) throw new DemoStopped(live.problem);
  }
  return plugged.value;
}

async function certificate(technician: Technician, notebook: Notebook, out: string, output: Output): Promise<void> {
  const issued = await technician.ask('certificate.issue', { build: notebook.id, by, page: 'a4', units: 'metric' });
  const pdf = Buffer.from(issued.pdf_base64, 'base64');
  const { firstPagePicture } = await import('../../certificate/picture.ts');
  const picture = await firstPagePicture(pdf, 1240);
  writeWhole(join(out, demoFiles.pdf), pdf);
  writeWhole(join(out, demoFiles.data), jsonFromPdf(pdf));
  writeWhole(join(out, demoFiles.picture), picture);
  output.say(`\nCertificate: ${issued.complete ? 'complete' : 'incomplete'}, SHA-256 ${issued.sha256}`);
  for (const sentence of issued.missing) output.say(`  ${sentence}`);
  output.say(`Written to ${out}: ${Object.values(demoFiles).join(', ')}`);
}
